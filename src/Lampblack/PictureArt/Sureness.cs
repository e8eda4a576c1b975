namespace Lampblack.PictureArt;

/// <summary>How sure it is what is field.</summary>
public enum Sureness
{
    /// <summary>The user said so.</summary>
    Told,

    /// <summary>Field and openings lie clearly apart.</summary>
    Sure,

    /// <summary>They lie apart, but some of the picture is in between.</summary>
    FairlySure,

    /// <summary>There is no clear border, or too much of the picture could be either.</summary>
    Doubtful,
}

/// <summary>The words for it.</summary>
public static class SurenessWords
{
    /// <summary>As it stands in reports.</summary>
    public static string Word(this Sureness sureness) => sureness switch
    {
        Sureness.Told => "as told",
        Sureness.Sure => "sure",
        Sureness.FairlySure => "fairly sure",
        _ => "doubtful",
    };
}
