namespace Lampblack.Link;

/// <summary>Whether it is still the same run of the panel, by the seconds since its start that it tells with each pulse and before each answer to where everything stands.</summary>
internal sealed class PanelUptime
{
    private int? knownSeconds;

    /// <summary>Whether a later start would show: in a run of less than a second both would tell 0.</summary>
    public bool CanTell => knownSeconds > 0;

    /// <summary>Whether it told that its first second has not passed. A run whose time is not known yet may be days old.</summary>
    public bool IsFirstSecond => knownSeconds == 0;

    /// <summary>Takes what the panel tells.</summary>
    /// <param name="upSeconds">0 to 65535, then 0 again.</param>
    /// <returns>Whether it is less than it was: the panel started in between. Half the range is far more than can pass unheard.</returns>
    public bool WentBack(int upSeconds)
    {
        var wentBack = knownSeconds is { } before && (short)(upSeconds - before) < 0;
        knownSeconds = upSeconds;
        return wentBack;
    }

    /// <summary>Another run, or another panel.</summary>
    public void Forget() => knownSeconds = null;
}
