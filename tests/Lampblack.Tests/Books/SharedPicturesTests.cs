using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Books;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>A picture in dots that a book shows twice is held once, where it stands first.</summary>
public sealed class SharedPicturesTests
{
    [Fact]
    public void No_picture_is_held_twice_and_every_one_is_shown()
    {
        var result = SmallDesk.Build(SmallDesk.Text());
        var shown = ExampleBooks.Pictures(result.MadeBook!.Book).Where(picture => picture.Content.Contains("<image ", StringComparison.Ordinal)).ToList();
        var html = SmallDesk.Html(result);
        var page = SmallDesk.Xml(html);
        var figures = page.Descendants().Where(element => element.Name.LocalName == "figure" && element.Descendants().Any(one => one.Name.LocalName is "image" or "use")).ToList();
        Assert.Equal(shown.Count, figures.Count);

        var held = new Dictionary<string, string>();
        var (again, images) = (0, new List<string>());
        foreach (var (figure, picture) in figures.Zip(shown))
        {
            var drawn = figure.Descendants().Single(one => one.Name.LocalName is "image" or "use");
            var link = drawn.Attribute("href")!.Value;
            if (drawn.Name.LocalName == "use")
            {
                link = held[link[1..]];
                again++;
            }
            else
            {
                images.Add(link);
                held[drawn.Attribute("id")?.Value ?? $"unnamed {images.Count}"] = link;
            }

            // What is seen is what the step has.
            Assert.Contains(link, picture.Content, StringComparison.Ordinal);
            Assert.Equal(ExampleBooks.Plain(picture.Caption), figure.Descendants().Single(one => one.Name.LocalName == "title").Value);
        }

        Assert.True(again >= 1, $"{again} shown again");
        Assert.Equal(images.Count, images.Distinct().Count());
    }

    /// <summary>A chapter that is shown without the others has its pictures within it.</summary>
    [Fact]
    public void A_chapter_alone_rests_on_no_picture_of_another()
    {
        var book = SmallDesk.Build(SmallDesk.Text()).MadeBook!.Book;
        var pages = book.Chapters.Select(BookHtml.Part).ToList();
        Assert.All(pages, page => Assert.DoesNotContain("<use ", page, StringComparison.Ordinal));
        Assert.Equal(ExampleBooks.Pictures(book).Count(picture => picture.Content.Contains("<image ", StringComparison.Ordinal)), pages.Sum(page => page.Split("<image ").Length - 1));
    }
}
