using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Books;

/// <summary>Pictures in dots that a book shows in several places and holds once: the first is drawn, those that follow are drawn from it.</summary>
internal static class SharedPictures
{
    private const string Title = "</title>";
    private const string Image = "<image ";
    private const string End = "/></svg>";

    // Where a PNG tells its width and height: after its signature, and the length and name of its first chunk.
    private const int SizeAt = 16;

    /// <summary>A picture as markup.</summary>
    /// <param name="png">A PNG.</param>
    /// <param name="title">What it shows, as markup.</param>
    public static string Of(ImmutableArray<byte> png, string title)
    {
        var (wide, high) = (Number(png, SizeAt), Number(png, SizeAt + 4));
        return string.Create(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"dots\" role=\"img\" width=\"{wide}\" height=\"{high}\" viewBox=\"0 0 {wide} {high}\"><title>{title}{Title}{Image}width=\"{wide}\" height=\"{high}\" href=\"data:image/png;base64,{Convert.ToBase64String(png.AsSpan())}\"{End}");
    }

    /// <summary>The chapters of a page with each such picture held where it stands first.</summary>
    /// <param name="chapters">The chapters, in their order on the page.</param>
    public static ImmutableArray<BookChapter> Once(ImmutableArray<BookChapter> chapters)
    {
        var repeated = chapters.SelectMany(chapter => chapter.Blocks.Concat(chapter.Steps.SelectMany(step => step.Blocks))).OfType<PictureRow>().SelectMany(row => row.All).Select(picture => picture.Content)
            .Where(IsImage).GroupBy(content => content, StringComparer.Ordinal).Where(same => same.Count() > 1).Select(same => same.Key)
            .Select((content, index) => (content, Id: string.Create(CultureInfo.InvariantCulture, $"picture-{index + 1}"))).ToDictionary(one => one.content, one => one.Id, StringComparer.Ordinal);
        var drawn = new HashSet<string>(StringComparer.Ordinal);
        return [.. chapters.Select(chapter => chapter with { Blocks = Of(chapter.Blocks), Steps = [.. chapter.Steps.Select(step => step with { Blocks = Of(step.Blocks) })] })];

        ImmutableArray<BookBlock> Of(ImmutableArray<BookBlock> blocks) => [.. blocks.Select(block => block is PictureRow row ? row with { All = [.. row.All.Select(Shown)] } : block)];

        BookPicture Shown(BookPicture picture)
        {
            if (!repeated.TryGetValue(picture.Content, out var id))
            {
                return picture;
            }

            var at = picture.Content.IndexOf(Image, StringComparison.Ordinal);
            return picture with
            {
                Content = drawn.Add(id)
                    ? picture.Content.Insert(at + Image.Length, $"id=\"{id}\" ")
                    : $"{picture.Content[..at]}<use href=\"#{id}\"/></svg>",
            };
        }
    }

    /// <summary>Whether it is a picture in dots and nothing besides.</summary>
    private static bool IsImage(string content) =>
        content.IndexOf(Title + Image, StringComparison.Ordinal) is > 0 and var at && content.EndsWith(End, StringComparison.Ordinal)
        && content.IndexOf('<', at + Title.Length + Image.Length) == content.Length - End.Length + End.IndexOf('<', StringComparison.Ordinal);

    private static int Number(ImmutableArray<byte> bytes, int at) => (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3];
}
