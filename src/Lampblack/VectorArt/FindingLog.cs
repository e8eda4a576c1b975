using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>Gathers findings: each subject once, of each code a dozen; how many more there were is said with the last.</summary>
internal sealed class FindingLog
{
    private readonly List<Finding> _findings = [];
    private readonly HashSet<(string Code, string Subject)> _subjects = [];
    private readonly Dictionary<string, int> _left = [];
    private readonly List<(string What, string Where, SourceSpan Place)> _external = [];
    private int _externalCount;

    /// <summary>Adds a finding.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="subject">What it is about, where it is to be told once however often it is met; each is told where null.</param>
    public void Add(Finding finding, string? subject = null)
    {
        if (subject is not null && !_subjects.Add((finding.Code, subject)))
        {
            return;
        }

        if (_findings.Count(other => other.Code == finding.Code) >= Limits.SameFindings)
        {
            _left[finding.Code] = _left.GetValueOrDefault(finding.Code) + 1;
        }
        else
        {
            _findings.Add(finding);
        }
    }

    /// <summary>Remembers something that lies outside the file; all of it becomes one finding.</summary>
    public void External(string what, string where, SourceSpan place)
    {
        if (_externalCount++ == 0)
        {
            _external.Add((what, where, place));
        }
    }

    public ImmutableArray<Finding> All()
    {
        var all = ImmutableArray.CreateBuilder<Finding>();
        foreach (var finding in _findings)
        {
            var isLast = _left.ContainsKey(finding.Code) && finding == _findings.FindLast(other => other.Code == finding.Code);
            all.Add(isLast
                ? finding with { Message = string.Create(CultureInfo.InvariantCulture, $"{finding.Message} There are {_left[finding.Code]} more like this.") }
                : finding);
        }

        foreach (var (what, where, place) in _external)
        {
            var more = _externalCount > 1 ? string.Create(CultureInfo.InvariantCulture, $" There are {_externalCount - 1} more references to things outside.") : string.Empty;
            all.Add(Finding.Stop(
                "svg-external",
                $"The drawing refers to {what} outside itself ({Shown.Quoted(where)}); nothing outside the file is read or fetched, so that part is missing.{more}",
                "Embed linked pictures and styles in the drawing program (often called \"embed\" instead of \"link\"), and export again.",
                place));
        }

        return all.ToImmutable();
    }
}
