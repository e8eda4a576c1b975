using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>The pieces of a page by their forms: one that comes again and again is drawn once and stamped in its places, any other is drawn where it lies.</summary>
internal sealed class PdfStamps
{
    /// <summary>About what a stamp costs beside its drawing, as corners: its object, its name on the page, its entry in the file's table.</summary>
    private const int CornersOfStamp = 16;

    private readonly List<PieceForm> _forms = [];
    private readonly List<PieceForm> _stamped = [];

    /// <summary>Of each area where its first piece stands among all; one more behind the last.</summary>
    private readonly int[] _firstPieces;
    private readonly List<(PieceForm Form, long Right, long Up)> _pieces = [];

    /// <summary>Forms by the last bits of their sums: the number of the latest, counted from 1.</summary>
    private int[] _latest = new int[1 << 9];

    private PdfStamps(ImmutableArray<Painted<PageSpace>> areas)
    {
        _firstPieces = new int[areas.Length + 1];
        var corners = new List<int>();
        for (var index = 0; index < areas.Length; index++)
        {
            if (areas[index].Dots is null)
            {
                Check(areas[index].Region.Bounds);
                foreach (var (right, up) in areas[index].Region.PiecesInSteps(corners))
                {
                    var form = FormOf(CollectionsMarshal.AsSpan(corners));
                    form.Count++;
                    _pieces.Add((form, right, up));
                }
            }

            _firstPieces[index + 1] = _pieces.Count;
        }
    }

    /// <summary>Looks at all areas of a page.</summary>
    public static PdfStamps Of(ImmutableArray<Painted<PageSpace>> areas) => new(areas);

    /// <summary>Fills an area in the ink that is set.</summary>
    /// <param name="content">What is there; the operators are added to it.</param>
    /// <param name="area">Its number among those of the page.</param>
    public void Add(ByteText content, int area)
    {
        var isOpen = false;
        foreach (var (form, right, up) in CollectionsMarshal.AsSpan(_pieces)[_firstPieces[area].._firstPieces[area + 1]])
        {
            if (!IsStamped(form))
            {
                _ = PackedStamp.AddBorders(content, form.Corners, right, up);
                isOpen = true;
            }
        }

        // Pieces of an area don't overlap, and a piece's holes lie within it: even-odd leaves them open whichever way borders run.
        content.Add(isOpen ? "f*\n"u8 : []);
        foreach (var (form, right, up) in CollectionsMarshal.AsSpan(_pieces)[_firstPieces[area].._firstPieces[area + 1]])
        {
            if (IsStamped(form))
            {
                if (form.Number == 0)
                {
                    _stamped.Add(form);
                    form.Number = _stamped.Count;
                }

                content.Add("q 1 0 0 1 "u8).AddStepsAsPoints(right).Add(" "u8).AddStepsAsPoints(up).Add(" cm /s"u8).Add(form.Number).Add(" Do Q\n"u8);
            }
        }
    }

    /// <summary>All stamps, and what they are called on the page.</summary>
    public IEnumerable<(string Called, NamedPart Part)> Named() => _stamped.Select((form, index) => (FormattableString.Invariant($"s{index + 1}"), (NamedPart)PackedStamp.Of(form.Corners)));

    private static void Check(Box<PageSpace> box)
    {
        if (Math.Max(Math.Max(-box.LeftMm, box.RightMm), Math.Max(-box.BottomMm, box.TopMm)) > ByteText.FarthestMm)
        {
            throw new ArgumentException($"a coordinate is not a number within {ByteText.FarthestMm} mm", nameof(box));
        }
    }

    private static bool IsStamped(PieceForm form) => (form.Count - 1) * form.Corners.Length / 2 > CornersOfStamp;

    private PieceForm FormOf(ReadOnlySpan<int> corners)
    {
        var sum = SumOf(corners);
        for (var number = _latest[sum & (uint)(_latest.Length - 1)]; number > 0; number = _forms[number - 1].Before)
        {
            if (_forms[number - 1].Sum == sum && corners.SequenceEqual(_forms[number - 1].Corners))
            {
                return _forms[number - 1];
            }
        }

        if (_forms.Count == _latest.Length)
        {
            Spread();
        }

        var form = new PieceForm(corners.ToArray(), sum);
        _forms.Add(form);
        Enter(form, _forms.Count);
        return form;
    }

    /// <summary>Twice as many places.</summary>
    private void Spread()
    {
        _latest = new int[2 * _latest.Length];
        for (var index = 0; index < _forms.Count; index++)
        {
            Enter(_forms[index], index + 1);
        }
    }

    private void Enter(PieceForm form, int number)
    {
        ref var latest = ref _latest[form.Sum & (uint)(_latest.Length - 1)];
        (form.Before, latest) = (latest, number);
    }

    private static uint SumOf(ReadOnlySpan<int> corners)
    {
        var sum = 2166136261u;
        foreach (var number in corners)
        {
            sum = (sum ^ (uint)number) * 0x9E3779B1u;
            sum ^= sum >> 15;
        }

        return sum;
    }

    private sealed class PieceForm(int[] corners, uint sum)
    {
        public int[] Corners { get; } = corners;

        public uint Sum { get; } = sum;

        /// <summary>The number of the form before this one in its place; 0 for none.</summary>
        public int Before { get; set; }

        /// <summary>How often it stands on the page.</summary>
        public int Count { get; set; }

        /// <summary>Its number among the stamps; 0 before it is stamped.</summary>
        public int Number { get; set; }
    }
}
