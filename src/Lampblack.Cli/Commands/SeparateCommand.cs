using System.CommandLine;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack separate ART</c>: one picture in, a front and a mask in register out.</summary>
internal static class SeparateCommand
{
    /// <summary>The schema of its answer for machines.</summary>
    internal const string Schema = "lampblack-separate/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> art = new("ART") { Description = "A drawing or picture: SVG, PNG or JPEG" };
        ArtOptions options = new();
        BuildOptions build = new(hasDesk: false);
        Command command = new("separate", "Make the sheets for one picture drawn elsewhere: a front with a really black field and its light mask, in register. No desk file is needed.") { art };
        options.AddTo(command);
        build.AddTo(command);
        HelpWithExamples.Add(
            command,
            "lampblack separate face.svg --width 180mm",
            "lampblack separate scan.png --width 180mm --levels 40 --invert",
            "lampblack separate face.svg --width 180mm --holes hole --printer study");
        Call.Bind(command, call => BuildRun.Run(call, build, Schema, () => Opened(call, call.Parsed.GetRequiredValue(art), options)), build.Json, Schema);
        return command;
    }

    private static OpenedDesk Opened(Call call, string art, ArtOptions options)
    {
        OpenedArt opened = OpenedArt.Open(art, Separate.LimitBytes);
        SeparateRequest request = options.RequestOf(call.Parsed, opened.Name);
        (double OwnWidthMm, double WantedWidthMm)? differing = Separate.OtherSize(request, opened.Bytes);
        if (differing is { } sizes && !call.IsJson && Prompt.CanAsk)
        {
            string answer = Prompt.Here().Ask(
                FormattableInvariant($"'{opened.Name}' says it is {sizes.OwnWidthMm:0.0} mm wide, and {sizes.WantedWidthMm:0.0} mm are asked for. Which is right: own or asked?"),
                "asked",
                word => word is "own" or "asked" ? null : "Answer own or asked.");
            request = answer == "own" ? request with { WidthMm = sizes.OwnWidthMm } : request;
        }

        return opened.AsDesk(Separate.Desk(request, opened.Bytes));

        static string FormattableInvariant(System.FormattableString text) => System.FormattableString.Invariant(text);
    }
}
