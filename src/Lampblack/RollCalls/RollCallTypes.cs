using System.Collections.Immutable;

namespace Lampblack.RollCalls;

/// <summary>What the maker says to the roll-call.</summary>
public enum RollCallAnswer
{
    /// <summary>It is done as asked, and that is what came; or: yes, it shines.</summary>
    Done,

    /// <summary>No, it does not shine.</summary>
    No,

    /// <summary>Another one shines in its place.</summary>
    Other,

    /// <summary>I did it wrong; once more.</summary>
    Again,

    /// <summary>Leave this one out.</summary>
    Skip,

    /// <summary>Enough for now.</summary>
    Stop,
}

/// <summary>What became of a control.</summary>
public enum RollCallVerdict
{
    /// <summary>It answered as it should, in every position and direction, and nothing else did.</summary>
    Answered,

    /// <summary>It did not.</summary>
    Wrong,

    /// <summary>It was left out.</summary>
    Skipped,

    /// <summary>The roll was stopped before it.</summary>
    NotCalled,
}

/// <summary>What is asked at the moment.</summary>
/// <param name="Id">The control; empty before the roll is called.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Sentence">What to do, or a question.</param>
/// <param name="Number">Which control it is, from 1.</param>
/// <param name="Count">How many are called.</param>
/// <param name="IsQuestion">Whether yes or no is expected.</param>
public sealed record RollCallAsk(string Id, string Name, string Sentence, int Number, int Count, bool IsQuestion)
{
    /// <summary>Whether another one may answer in its place.</summary>
    public bool MayBeOther { get; init; }
}

/// <summary>What became of one control.</summary>
/// <param name="Id">The control, or a channel's name.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Verdict">Whether it is well.</param>
/// <param name="Said">What was found; empty where all is well.</param>
public sealed record RollCallResult(string Id, string Name, RollCallVerdict Verdict, ImmutableArray<string> Said);

/// <summary>How a contact bounced, at its worst.</summary>
/// <param name="Contact">In words.</param>
/// <param name="Changes">Raw changes.</param>
/// <param name="Ticks">Eighths of a millisecond; 255 for that or more.</param>
public sealed record ContactBounce(string Contact, int Changes, int Ticks);

/// <summary>What the roll-call found.</summary>
/// <param name="Results">Each control, in the desk's order.</param>
/// <param name="Causes">What is wrong and what to resolder, the likeliest first; all of them would explain everything that was heard. Empty where nothing is wrong.</param>
/// <param name="IsOneCause">Whether one single thing explains everything that was heard.</param>
/// <param name="Bounces">Each contact that bounced, in the plan's order.</param>
public sealed record RollCallRecord(ImmutableArray<RollCallResult> Results, ImmutableArray<string> Causes, bool IsOneCause, ImmutableArray<ContactBounce> Bounces)
{
    /// <summary>Whether every control that was called is well, and none was left out.</summary>
    public bool IsGood
    {
        get
        {
            foreach (var result in Results)
            {
                if (result.Verdict != RollCallVerdict.Answered)
                {
                    return false;
                }
            }

            return true;
        }
    }
}
