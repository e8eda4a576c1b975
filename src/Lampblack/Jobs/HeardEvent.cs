using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Lampblack.Link;

namespace Lampblack.Jobs;

/// <summary>Something that was heard from the panel, in the forms in which it is passed on.</summary>
public sealed record HeardEvent
{
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>When, in ms since listening began.</summary>
    public required long AtMs { get; init; }

    /// <summary><c>control</c>, <c>encoder</c>, <c>analog</c> or <c>link</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>The control's id, or the line's.</summary>
    public required string Id { get; init; }

    /// <summary>One JSON object on one line, without its end.</summary>
    public required string Line { get; init; }

    /// <summary>A state's name, or a number; empty for none.</summary>
    public required string Payload { get; init; }

    /// <summary>The same as a message of Open Sound Control.</summary>
    public required ImmutableArray<byte> Osc { get; init; }

    /// <summary>The same for people.</summary>
    public required string Said { get; init; }

    /// <summary>Puts an event into all its forms.</summary>
    internal static HeardEvent Of(LinkEvent happened)
    {
        var (kind, payload, argument, said) = happened switch
        {
            StateEvent { State: { } state } => ("control", state, state, state),
            StateEvent => ("control", string.Empty, string.Empty, "between its positions"),
            TurnEvent turn => ("encoder", turn.Steps.ToString(CultureInfo.InvariantCulture), turn.Steps, turn.Steps.ToString("+0;-0", CultureInfo.InvariantCulture)),
            TravelEvent travel => ("analog", Number(travel.ValueShare), (float)travel.ValueShare, travel.ValueShare.ToString("0.0 %", CultureInfo.InvariantCulture)),
            LineEvent line => ("link", NameOf(line.State), (object)NameOf(line.State), line.Said),
            _ => throw new System.ArgumentOutOfRangeException(nameof(happened)),
        };
        return new()
        {
            AtMs = happened.AtMs,
            Kind = kind,
            Id = happened.Id,
            Payload = payload,
            Line = LineOf(happened, kind, payload),
            Osc = new OscMessage(OscMessage.AddressOf(happened.Id), [argument]).Encode(),
            Said = happened is LineEvent ? said : $"{happened.Id}: {said}",
        };
    }

    private static string LineOf(LinkEvent happened, string kind, string payload)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, Plain))
        {
            json.WriteStartObject();
            json.WriteNumber("t", happened.AtMs);
            json.WriteString("kind", kind);
            json.WriteString("id", happened.Id);
            switch (happened)
            {
                case TurnEvent turn:
                    json.WriteNumber("value", turn.Steps);
                    break;
                case TravelEvent:
                    json.WritePropertyName("value");
                    json.WriteRawValue(payload);
                    break;
                default:
                    json.WriteString("state", happened is StateEvent { State: null } ? null : payload);
                    break;
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>Four decimals: finer than one reading of 12 bits.</summary>
    private static string Number(double valueShare) => valueShare.ToString("0.####", CultureInfo.InvariantCulture);

    private static string NameOf(LineState state) => state switch
    {
        LineState.Waiting => "waiting",
        LineState.Connected => "connected",
        LineState.Restarted => "restarted",
        LineState.Gap => "gap",
        LineState.Silent => "silent",
        LineState.Closed => "closed",
        LineState.OtherVersion => "other-version",
        LineState.OtherPlan => "other-plan",
        _ => "refused",
    };
}
