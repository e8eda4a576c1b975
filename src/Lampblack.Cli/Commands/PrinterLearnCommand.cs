using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.IO;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer learn NAME</c>: tells a printer file what was seen on a sheet.</summary>
internal static class PrinterLearnCommand
{
    private const string Schema = "lampblack-printer-learn/1";

    private static readonly string[] Examples =
    [
        "lampblack printer learn study",
        "lampblack printer learn study photo-1.jpg photo-2.jpg",
        "lampblack printer learn photo-1.jpg photo-2.jpg --printer study",
        "lampblack printer learn study photo.jpg --sheets my-desk/out",
        "lampblack printer learn study --tick A --cross front",
        "lampblack printer learn study --dots 6-21:N=2,E=0,S=0,W=1",
        "lampblack printer learn study --dots 6-21:N=2,E=0,S=0,W=1 --sheets my-desk/out",
        "lampblack printer learn study --reading NE:x=+0.3,y=-0.1 --reading SW:x=+2c,y=0 --register 1",
        "lampblack printer learn study --vernier 1x=5.3,1y=4.8,2x=5.2,2y=5.1,3x=5.3,3y=4.9",
        "lampblack printer learn study --bar front=99.8,back=99.7 --flaked C300,C320 --held C240",
        "lampblack printer learn study --dots 5@10-15:N=1,E=0,S=0,W=2 --step 0.7mm",
    ];

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> name = PrinterCommand.NameArgument();
        Argument<string[]> photos = new("PHOTO") { Description = "Photos of its calibration sheet, or of sheets of a build (with --sheets), held to a light: PNG or JPEG", Arity = ArgumentArity.ZeroOrMore };
        Option<string> printer = new("--printer") { Description = "The printer, where all that is named before it are photos", HelpName = "NAME" };
        Option<string> output = new("--output", "-o") { Description = "A folder for pictures of what the photos show, with misregister as arrows; none without it", HelpName = "DIR" };
        LearnOptions options = new();
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("learn", "Learn from what was seen on a printed sheet. At a terminal it asks one thing after the other where nothing is told. Exit code 1 where an answer can't be.") { name, photos };
        command.Options.Add(printer);
        command.Options.Add(output);
        options.AddTo(command);
        command.Options.Add(json);
        command.Validators.Add(result =>
        {
            // Nobody can be asked in a pipe, or by a machine that waits for an answer.
            bool hasPhotos = result.GetResult(printer) is { Implicit: false } || result.GetValue(photos) is { Length: > 0 };
            if (!hasPhotos && !options.AnyIn(result) && (result.GetValue(json) || !Prompt.CanAsk))
            {
                result.AddError($"Nothing was told that could be learned from. Examples:{string.Concat(Examples.Skip(1).Select(line => $"\n  {line}"))}");
            }
        });
        HelpWithExamples.Add(command, Examples);
        Call.Bind(
            command,
            call =>
            {
                string first = call.Parsed.GetRequiredValue(name);
                string[] rest = call.Parsed.GetValue(photos) ?? [];
                return call.Parsed.GetValue(printer) is { } named ? Run(call, named, [first, .. rest], options, output) : Run(call, first, rest, options, output);
            },
            json,
            Schema);
        return command;
    }

    private static int Run(Call call, string name, string[] photos, LearnOptions options, Option<string> output)
    {
        PrinterShelf shelf = PrinterShelf.Here();
        LearnAnswers answers = options.Of(call.Parsed);
        if (photos.Length > 0)
        {
            answers = answers with { Photos = Read(call, photos, PrinterFiles.HasColours(shelf.Read(name).Reading.Value), answers.Report) };
            foreach (string line in call.IsJson ? [] : answers.Photos.SheetsTold)
            {
                call.Terminal.Say(line);
            }

            if (call.Parsed.GetValue(output) is { } folder && answers.Photos.CanTeach)
            {
                SheetFolder.Write(call, folder, answers.Photos.Arrows());
            }
        }

        if (answers.IsEmpty && !options.AnyIn(call.Parsed.CommandResult))
        {
            ShelvedPrinter before = shelf.Read(name);
            if (before.Reading.HasStop)
            {
                return PrinterCommand.Refuse(call, before);
            }

            try
            {
                answers = call.Await(() => LearnQuestions.Ask(Prompt.Here(), before.Reading.Value, answers.Report)) with { Date = answers.Date };
            }
            catch (EndOfStreamException)
            {
                throw new FileProblemException("The answers ended before the last question. Nothing was stored.");
            }

            if (answers.IsEmpty)
            {
                call.Terminal.Say("Nothing was told, so nothing was learned.");
                return ExitCodes.Fine;
            }
        }

        LearnResult? result = null;
        ShelvedPrinter after = shelf.Change(name, file =>
        {
            Checked<LearnResult> learned = Learn.Run(file, answers);
            result = learned.Value;
            return new(learned.Value.File, learned.Findings);
        }, () => call.Terminal.Log("waiting for another program that changes printer files"), call.Cancellation);
        int exit = after.Reading.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            Answer(exit, after, result, answers.Photos);
        }
        else if (after.Reading.HasStop)
        {
            return PrinterCommand.Refuse(call, after);
        }
        else
        {
            PrinterCommand.PrintFindings(call.Terminal, after);
            foreach (string word in result?.Words ?? [])
            {
                call.Terminal.Say(word);
            }

            foreach (string line in answers.Photos?.BlacksTold ?? [])
            {
                call.Terminal.Say(line);
            }

            call.Terminal.Say($"Stored in {ShownPath.Of(after.FilePath)}.");
        }

        return exit;
    }

    private static PhotosOfSheets Read(Call call, string[] photos, bool hasColours, ImmutableArray<byte> report)
    {
        using ProgressLine progress = new(call.Terminal);
        return call.Await(() => PhotosOfSheets.Read(
            photos.Select(photo =>
            {
                OpenedArt opened = OpenedArt.Open(photo, PhotosOfSheets.LimitBytes);
                return (opened.Name, opened.Bytes.AsMemory());
            }),
            progress,
            call.Cancellation,
            hasColours,
            report));
    }

    private static void Answer(int exit, ShelvedPrinter after, LearnResult? result, PhotosOfSheets? photos) => JsonAnswer.Print(Schema, exit, writer =>
    {
        writer.WriteString("printer", after.FilePath);
        writer.WriteNumber("register", after.Reading.Value.Revision);
        writer.WriteBoolean("stored", after.IsChanged);
        JsonAnswer.WriteTexts(writer, "learned", result?.Words ?? []);
        writer.WriteStartObject("figures");
        foreach ((string figure, double value) in result?.Figures ?? ImmutableSortedDictionary<string, double>.Empty)
        {
            writer.WriteNumber(figure, decimal.Round((decimal)value, 4, MidpointRounding.AwayFromZero));
        }

        writer.WriteEndObject();
        if (result?.Keeper is { } keeper)
        {
            writer.WriteNumber("keeper", keeper);
        }
        else
        {
            writer.WriteNull("keeper");
        }

        if (result?.WantsAnotherSheet is { } wants)
        {
            writer.WriteBoolean("anotherSheet", wants);
        }
        else
        {
            writer.WriteNull("anotherSheet");
        }

        Fit(writer, photos?.Fit);
        writer.WriteStartArray("photos");
        foreach (PhotoAccount photo in photos?.Photos ?? [])
        {
            Photo(writer, photo);
        }

        writer.WriteEndArray();
        writer.WriteStartArray("patches");
        foreach (PatchOfCopy patch in photos?.Patches ?? [])
        {
            Patch(writer, patch);
        }

        writer.WriteEndArray();
        Edges(writer, photos);
        JsonAnswer.WriteFindings(writer, after.Reading.Findings);
    });

    /// <summary>Copy by copy: how much toner grew at each edge, and how far each colour lies off its black at each of its marks.</summary>
    private static void Edges(Utf8JsonWriter writer, PhotosOfSheets? photos)
    {
        writer.WriteStartArray("growth");
        foreach (GrowthOfCopy growth in photos?.Growth ?? [])
        {
            writer.WriteStartObject();
            Copy(writer, growth.Copy);
            Rounded(writer, "acrossMm", growth.AcrossMm);
            Rounded(writer, "alongMm", growth.AlongMm);
            Rounded(writer, "sdMm", growth.SdMm);
            writer.WriteNumber("lines", growth.Lines);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteStartArray("colours");
        foreach (ColourOfCopy colour in photos?.Colours ?? [])
        {
            writer.WriteStartObject();
            Copy(writer, colour.Copy);
            writer.WriteString("ink", colour.Ink);
            writer.WriteStartArray("atMm");
            writer.WriteNumberValue(decimal.Round((decimal)colour.XMm, 3, MidpointRounding.AwayFromZero));
            writer.WriteNumberValue(decimal.Round((decimal)colour.YMm, 3, MidpointRounding.AwayFromZero));
            writer.WriteEndArray();
            Rounded(writer, "rightMm", colour.RightMm);
            Rounded(writer, "upMm", colour.UpMm);
            Rounded(writer, "sdMm", colour.SdMm);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static void Copy(Utf8JsonWriter writer, int? number)
    {
        if (number is { } copy)
        {
            writer.WriteNumber("copy", copy);
        }
        else
        {
            writer.WriteNull("copy");
        }
    }

    private static void Rounded(Utf8JsonWriter writer, string name, double mm) => writer.WriteNumber(name, decimal.Round((decimal)mm, 4, MidpointRounding.AwayFromZero));

    /// <summary>Density above paper's own; a lower bound has no uncertainty, the patch is at least so dark.</summary>
    private static void Patch(Utf8JsonWriter writer, PatchOfCopy patch)
    {
        writer.WriteStartObject();
        Copy(writer, patch.Copy);

        writer.WriteString("id", patch.Id);
        writer.WriteNumber("density", patch.Density);
        if (patch.IsLowerBound)
        {
            writer.WriteNull("uncertainty");
        }
        else
        {
            writer.WriteNumber("uncertainty", patch.UncertaintyDensity);
        }

        writer.WriteBoolean("lowerBound", patch.IsLowerBound);
        writer.WriteBoolean("inferred", patch.IsInferred);
        writer.WriteEndObject();
    }

    /// <summary>A mark of side 2 meant for p, in mm from the sheet's lower left corner in front view, lies at A p + t; affine is [[a, b, tx], [c, d, ty]].</summary>
    private static void Photo(Utf8JsonWriter writer, PhotoAccount photo)
    {
        writer.WriteStartObject();
        writer.WriteString("file", photo.File);
        Copy(writer, photo.Copy);
        writer.WriteString("sheet", photo.Sheet);
        writer.WriteString("pairCode", photo.PairCode);
        if (photo.Register is { } register)
        {
            writer.WriteNumber("register", register);
        }
        else
        {
            writer.WriteNull("register");
        }

        writer.WriteNumber("marksFound", photo.MarksFound);
        writer.WriteNumber("marksUsed", photo.MarksUsed);
        Fit(writer, photo.Fit);
        JsonAnswer.WriteFindings(writer, photo.Findings);
        writer.WriteEndObject();
    }

    private static void Fit(Utf8JsonWriter writer, LandingOfSide2? fit)
    {
        if (fit is null)
        {
            writer.WriteNull("affine");
            writer.WriteNull("covariance");
            writer.WriteNull("rmsMm");
            return;
        }

        Rows(writer, "affine", fit.Affine);
        Rows(writer, "covariance", fit.Covariance);
        writer.WriteNumber("rmsMm", fit.RmsMm);
    }

    private static void Rows(Utf8JsonWriter writer, string name, ImmutableArray<ImmutableArray<double>> rows)
    {
        writer.WriteStartArray(name);
        foreach (ImmutableArray<double> row in rows)
        {
            writer.WriteStartArray();
            foreach (double number in row)
            {
                writer.WriteNumberValue(number);
            }

            writer.WriteEndArray();
        }

        writer.WriteEndArray();
    }
}
