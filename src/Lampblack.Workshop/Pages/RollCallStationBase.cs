using System;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where every control of the finished panel answers.</summary>
public class RollCallStationBase : ComponentBase, IDisposable
{
    private const double LeastRadiusMm = 8;

    private string _asked = string.Empty;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>The port as it was typed or chosen; empty for the only one.</summary>
    protected string Port { get; set; } = string.Empty;

    /// <summary>Who is called, as it was typed.</summary>
    protected string Only { get; set; } = string.Empty;

    /// <summary>Whether those who answered in the record are left out.</summary>
    protected bool GoesOn { get; set; } = true;

    /// <summary>A command for the simulated panel.</summary>
    protected string Hand { get; set; } = string.Empty;

    /// <summary>The button that the keyboard is on while the roll is called.</summary>
    protected ElementReference Done { get; set; }

    /// <summary>Ports that a panel may be at.</summary>
    protected ImmutableArray<string> Ports { get; private set; } = [];

    /// <summary>Whether there is a record to go on with.</summary>
    protected bool HasRecord => File.Exists(RecordFile);

    /// <summary>For an example.</summary>
    protected string FirstPanel => Bench.View.Panels.FirstOrDefault()?.Id ?? "panel";

    /// <summary>Where the control is that is asked for; null where none is, or it is on no panel.</summary>
    protected CalledPlace? Place
    {
        get
        {
            if (Bench.Roll.Question is not { Id.Length: > 0 } question)
            {
                return null;
            }

            // The push of a knob and the lamp of a button are where knob and button are.
            var found = from panel in Bench.View.Panels from item in panel.Items where question.Id == item.Address || question.Id.StartsWith(item.Address + ".", StringComparison.Ordinal) orderby item.Address.Length descending select (panel, item);
            return found.FirstOrDefault() is not { panel: { } on, item: { } called } ? null
                : new(on, called.Words, called.Anchor.XMm, on.HeightMm - called.Anchor.YMm, Math.Max(LeastRadiusMm, Math.Min(called.Box.WidthMm, called.Box.HeightMm) / 2));
        }
    }

    private string RecordFile => Path.Combine(Path.GetDirectoryName(Path.GetFullPath(Bench.FilePath))!, RollCallRecord.UsualName);

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Roll.Changed -= OnChanged;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Roll.Changed += OnChanged;
        Ports = [.. PanelPorts.Names()];
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        string asked = Bench.Roll.Question?.Id ?? string.Empty;
        if (Bench.Roll.IsCalling && !Bench.Roll.IsSimulated && asked != _asked)
        {
            _asked = asked;
            await Done.FocusAsync();
        }
    }

    /// <summary>Calls the roll.</summary>
    protected void Begin(bool isSimulated)
    {
        Port = isSimulated ? string.Empty : Port.Trim() is { Length: > 0 } typed ? typed : Ports.FirstOrDefault() ?? string.Empty;
        Bench.CallRoll(Port, isSimulated, [.. Only.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)], RecordFile, GoesOn && HasRecord);
    }

    /// <summary>Hands the simulated panel a command.</summary>
    protected void Move()
    {
        Bench.Roll.Move(Hand.Trim());
        Hand = string.Empty;
    }

    /// <summary>The picture of a panel's face.</summary>
    protected string FaceOf(PanelView panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return FormattableString.Invariant($"face/{panel.Id}/{Bench.Version}/day.png");
    }

    /// <summary>A panel as the window of a drawing.</summary>
    protected static string Box(PanelView panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return $"0 0 {Number(panel.WidthMm)} {Number(panel.HeightMm)}";
    }

    /// <summary>Width of the picture.</summary>
    protected static double FaceWidth(PanelView panel) => panel is null ? 0 : panel.Frame.WidthPx * panel.Frame.MmPerDot;

    /// <summary>Its height.</summary>
    protected static double FaceHeight(PanelView panel) => panel is null ? 0 : panel.Frame.HeightPx * panel.Frame.MmPerDot;

    /// <summary>A number for an attribute.</summary>
    protected static string Number(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    private void OnChanged() => _ = InvokeAsync(StateHasChanged);
}

/// <summary>Where the control is that is asked for.</summary>
/// <param name="Panel">Its panel.</param>
/// <param name="Words">What it is called.</param>
/// <param name="XMm">From the left edge.</param>
/// <param name="YMm">From the upper edge.</param>
/// <param name="RadiusMm">Of the ring around it.</param>
public sealed record CalledPlace(PanelView Panel, string Words, double XMm, double YMm, double RadiusMm);
