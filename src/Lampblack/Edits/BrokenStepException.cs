using System;
using Lampblack.Findings;

namespace Lampblack.Edits;

/// <summary>A step made a text that can't be read. It never leaves this folder: the edit is refused.</summary>
/// <param name="fault">What its reader says.</param>
internal sealed class BrokenStepException(Finding fault) : Exception
{
    /// <summary>What the text's reader says.</summary>
    public Finding Fault { get; } = fault;
}
