namespace Lampblack.Photos;

/// <summary>The light of one patch in one photo, in shares of the photo's white.</summary>
/// <param name="Id">The patch.</param>
/// <param name="Light">Mean over its middle.</param>
/// <param name="SdLight">How well that is known: noise, and the steps that a file stores light in.</param>
/// <param name="Paper">What bare paper would give there.</param>
/// <param name="PaperSdShare">How well that is known, as a share of it.</param>
/// <param name="Around">Mean light of the wider surroundings.</param>
/// <param name="IsBlown">Whether the patch is as bright as the file can say.</param>
/// <param name="IsDim">Whether it lies in the noise, or so low that the file's steps are wide.</param>
/// <param name="U">Where it lies in the photo, from the middle in half diagonals, to the right.</param>
/// <param name="V">The same, downwards.</param>
internal sealed record PatchLight(string Id, double Light, double SdLight, double Paper, double PaperSdShare, double Around, bool IsBlown, bool IsDim, double U, double V)
{
    /// <summary>Whether its light says something.</summary>
    public bool IsSound => !IsBlown && !IsDim;
}
