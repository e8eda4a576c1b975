using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>The light of a desk, and what was noticed.</summary>
public sealed record LightResult
{
    private readonly DeskLight _light;
    private readonly LightRequest _request;
    private readonly Lazy<ImmutableArray<OutputFile>> _files;

    internal LightResult(string title, ImmutableArray<Finding> findings, Func<ImmutableArray<OutputFile>> files, DeskLight light, LightRequest request) =>
        (Title, Findings, _files, _light, _request) = (title, findings, new(files), light, request);

    /// <summary>The desk's title.</summary>
    public string Title { get; }

    /// <summary>What was noticed.</summary>
    public ImmutableArray<Finding> Findings { get; }

    /// <summary>Drawings and lists, with a manifest; empty where nothing was planned. Made when they are asked for.</summary>
    public ImmutableArray<OutputFile> Files => _files.Value;

    /// <summary>A photo of the lit panel beside the plan; null where none was given, or it was no good.</summary>
    internal LightPhoto? Photo { get; init; }

    /// <summary>Whether the search was ended before its time.</summary>
    public bool IsStopped => _light.Panels.Any(panel => panel.IsStopped);

    /// <summary>Each panel in a sentence, then the circuit.</summary>
    public ImmutableArray<string> Lines =>
    [
        .. _light.Panels.Select(panel => $"{panel.Laid.Panel.Id}: {LightingFindings.Sentence(panel)}"),
        .. _light.Panels.SelectMany(panel => panel.Cells.Select(cell => $"{panel.Laid.Panel.Id}: {LightWords.Cell(cell)}")),
        .. _light.Circuit is { } circuit ? LightWords.Circuit(circuit) : [],
        .. Photo is { } photo ? LightPhotoReport.Lines(photo) : [],
    ];

    /// <summary>Writes the figures as properties of the current object.</summary>
    /// <param name="json">The writer.</param>
    public void WriteTo(Utf8JsonWriter json)
    {
        LightFigures.Write(json, _light, _request.GridMm, _request.Seed);
        if (Photo is { } photo)
        {
            LightPhotoReport.Write(json, photo);
        }
    }
}
