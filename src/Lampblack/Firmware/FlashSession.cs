using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>
/// Writing an image into a chip through its boot loader, as a state machine: bytes in, bytes out, no clock and no port.
/// The chip's signature is read first; another chip is not written. Nothing is written from the boot loader's first address on.
/// Each page is read back after it was written.
/// </summary>
public sealed class FlashSession
{
    /// <summary>How often a hello is repeated: a chip may still be starting.</summary>
    private const int MostHellos = 10;

    /// <summary>A boot loader that answers at all does so within this. Common practice, no source.</summary>
    private const int SilenceMs = 500;

    /// <summary>What is on its way comes within this: longer than an adapter holds bytes back, shorter than a boot loader waits for the next word (own measure, no source).</summary>
    private const int DrainMs = 100;

    /// <summary>The engine's last words are a few hundred bytes; what says more is something else (own measure, no source).</summary>
    private const int MostStrayBytes = 8192;

    private readonly List<byte> received = [];
    private readonly IEnumerator<FlashExchange> steps;
    private readonly int stepCount;
    private int hellos;
    private int stepsDone;
    private int strayBytes;
    private bool isDraining;
    private bool isGreeted;

    private FlashSession(IReadOnlyList<FlashExchange> steps)
    {
        stepCount = steps.Count;
        this.steps = steps.GetEnumerator();
        this.steps.MoveNext();
        Outgoing = [.. this.steps.Current.Request];
    }

    /// <summary>What to send now; empty while a reply is awaited. Taking it is up to the caller: it stays until <see cref="Receive"/> or <see cref="TimeOut"/>.</summary>
    public ImmutableArray<byte> Outgoing { get; private set; }

    /// <summary>What went wrong; null while nothing did. Nothing is sent after it.</summary>
    public Finding? Fault { get; private set; }

    /// <summary>Whether everything is written and was read back.</summary>
    public bool IsDone { get; private set; }

    /// <summary>After so long without a byte <see cref="TimeOut"/> is to be called.</summary>
    public int QuietMs => isDraining ? DrainMs : SilenceMs;

    /// <summary>How much is done, as a share.</summary>
    public double DoneShare => (double)stepsDone / stepCount;

    /// <summary>Bits a second that boot loaders of a chip usually listen at (common practice, no source); the ATmega32U4's own USB does not care.</summary>
    public static int UsualBaud(ControllerChip chip) => chip == ControllerChip.ATmega32U4 ? 57_600 : 115_200;

    /// <summary>Begins to write an image; null, with what is wrong, where it must not be written.</summary>
    public static Checked<FlashSession?> Begin(ControllerChip chip, HexFile image)
    {
        ArgumentNullException.ThrowIfNull(image);
        var target = FlashTarget.Of(chip);
        if (image.Segments.IsEmpty)
        {
            return new(null, [Finding.Stop("flash-image", "there is nothing to write", "join engine and table first")]);
        }

        if (image.Segments.Any(segment => segment.End > target.BootAddress))
        {
            return new(null, [Finding.Stop(
                "flash-image", Text($"the image reaches to 0x{image.Segments[^1].End - 1:X}; on {chip} nothing from 0x{target.BootAddress:X} on is written, there is the boot loader"),
                "take the image that the program joined")]);
        }

        var pages = FlashPages.Of(image, target.PageBytes);
        var steps = chip switch
        {
            ControllerChip.ATmega2560 => Stk500Second.Steps(target, pages),
            ControllerChip.ATmega328P => Stk500First.Steps(target, pages),
            _ => Avr109.Steps(target, pages),
        };
        return new(new FlashSession([.. steps]), []);
    }

    /// <summary>Takes what came from the boot loader.</summary>
    public void Receive(ReadOnlySpan<byte> bytes)
    {
        if (IsDone || Fault is not null || bytes.IsEmpty)
        {
            return;
        }

        Outgoing = [];
        if (isDraining)
        {
            Spill(bytes.Length);
            return;
        }

        received.AddRange(bytes);
        switch (steps.Current.Judge([.. received]))
        {
            case ReplyKind.Right when steps.Current.MayRepeat && hellos > 0:
                // Hello was said more than once, and each may be answered: a second answer is not the one to the next question.
                (isDraining, isGreeted) = (true, true);
                break;
            case ReplyKind.Right:
                Next();
                break;
            case ReplyKind.Wrong when steps.Current.MayRepeat && hellos < MostHellos:
                // It may be left over from the engine that ran before, with the answer to a hello among it.
                isDraining = true;
                Spill(bytes.Length);
                break;
            case ReplyKind.Wrong:
                Fault = Finding.Stop(
                    "flash-reply", steps.Current.Fault.Length > 0 ? steps.Current.Fault : $"the boot loader's answer was not understood while {steps.Current.Doing}",
                    "begin again; if it stays so, look at the cable and at which board this is");
                break;
            default:
                break;
        }
    }

    /// <summary>Tells that no more has come for <see cref="QuietMs"/>.</summary>
    public void TimeOut()
    {
        if (IsDone || Fault is not null)
        {
            return;
        }

        isDraining = false;
        if (isGreeted)
        {
            isGreeted = false;
            Next();
            return;
        }

        received.Clear();
        if (steps.Current.MayRepeat && hellos++ < MostHellos)
        {
            Outgoing = [.. steps.Current.Request];
            return;
        }

        Outgoing = [];
        Fault = Finding.Stop("flash-silent", $"no answer from the boot loader while {steps.Current.Doing}", "press the board's reset and begin again at once; look at the cable and the port");
    }

    /// <summary>What a wrong signature means.</summary>
    internal static string OtherChip(FlashTarget target) => $"this is no {target.Chip}: its signature is another; nothing was written";

    /// <summary>What a page that reads otherwise means.</summary>
    internal static string ReadsOtherwise(int address) => Text($"the page at 0x{address:X} reads otherwise than it was written");

    private void Spill(int count)
    {
        strayBytes += count;
        if (strayBytes > MostStrayBytes)
        {
            Fault = Finding.Stop("flash-reply", "what is at this port talks without end and is no boot loader", "look at which port the board is at, and close other programs that use it");
        }
    }

    private void Next()
    {
        received.Clear();
        stepsDone++;
        if (steps.MoveNext())
        {
            Outgoing = [.. steps.Current.Request];
        }
        else
        {
            IsDone = true;
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
