using System;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>Ends the reading of a picture with the one finding that says why. Never leaves this folder.</summary>
#pragma warning disable CA1032 // Made with its finding only.
internal sealed class PictureFault(Finding finding) : Exception(finding.Message)
{
    public Finding Finding { get; } = finding;

    public static PictureFault CutOff(string fileName) => new(Finding.Stop(
        "art-cut-off",
        $"{Shown.Quoted(fileName)} ends before its picture does.",
        "Copy or download it again, or export it again from the drawing program."));

    public static PictureFault Broken(string fileName, string what) => new(Finding.Stop(
        "art-broken",
        $"{Shown.Quoted(fileName)} is damaged: {what}.",
        "Copy or download it again, or export it again from the drawing program."));

    public static PictureFault Form(string fileName, string what, string hint) => new(Finding.Stop(
        "art-form-unknown",
        $"{Shown.Quoted(fileName)} {what}; PNG with 1 to 16 bits and JPEG with 8 bits a colour, Huffman coded, can be read.",
        hint));
}
#pragma warning restore CA1032
