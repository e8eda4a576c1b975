using System;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using HarfBuzzSharp;

namespace Lampblack.Lettering;

/// <summary>Takes down the contours of one glyph while HarfBuzz draws it.</summary>
internal sealed class GlyphPen
{
    /// <summary>More than any lettering needs, few enough that a damaged font can't fill the memory.</summary>
    private const int MostStrokes = 20_000;

    /// <summary>Far outside of any letter, in font units.</summary>
    private const float Farthest = 1 << 20;

    // The callbacks live as long as the program: native code keeps their addresses.
    private static readonly NativeDrawing.PointCallback OnMove = (_, pen, _, x, y, _) => Of(pen).Begin(Even(x), Even(y));
    private static readonly NativeDrawing.PointCallback OnLine = (_, pen, _, x, y, _) => Of(pen).Add(new(1, 0, 0, 0, 0, Even(x), Even(y)));
    private static readonly NativeDrawing.QuadraticCallback OnQuadratic =
        (_, pen, _, controlX, controlY, x, y, _) => Of(pen).Add(new(2, Even(controlX), Even(controlY), 0, 0, Even(x), Even(y)));
    private static readonly NativeDrawing.CubicCallback OnCubic =
        (_, pen, _, firstX, firstY, secondX, secondY, x, y, _) => Of(pen).Add(new(3, Even(firstX), Even(firstY), Even(secondX), Even(secondY), Even(x), Even(y)));
    private static readonly NativeDrawing.CloseCallback OnClose = (_, pen, _, _) => Of(pen).Close();
    private static readonly IntPtr Functions = Create();

    private readonly ImmutableArray<GlyphContour>.Builder _contours = ImmutableArray.CreateBuilder<GlyphContour>();
    private readonly ImmutableArray<GlyphStroke>.Builder _strokes = ImmutableArray.CreateBuilder<GlyphStroke>();
    private (float X, float Y) _start;
    private int _count;
    private bool _broken;

    /// <summary>The contours of a glyph in font units; null where they are damaged beyond use. The caller keeps the font alive.</summary>
    public static ImmutableArray<GlyphContour>? Draw(Font font, uint glyph)
    {
        var pen = new GlyphPen();
        var handle = GCHandle.Alloc(pen);
        try
        {
            NativeDrawing.DrawGlyph(font.Handle, glyph, Functions, GCHandle.ToIntPtr(handle));
        }
        finally
        {
            handle.Free();
        }

        pen.Close();
        return pen._broken ? null : pen._contours.ToImmutable();
    }

    private static IntPtr Create()
    {
        var functions = NativeDrawing.CreateFunctions();
        NativeDrawing.SetMoveTo(functions, OnMove, IntPtr.Zero, IntPtr.Zero);
        NativeDrawing.SetLineTo(functions, OnLine, IntPtr.Zero, IntPtr.Zero);
        NativeDrawing.SetQuadraticTo(functions, OnQuadratic, IntPtr.Zero, IntPtr.Zero);
        NativeDrawing.SetCubicTo(functions, OnCubic, IntPtr.Zero, IntPtr.Zero);
        NativeDrawing.SetClosePath(functions, OnClose, IntPtr.Zero, IntPtr.Zero);
        NativeDrawing.MakeImmutable(functions);
        return functions;
    }

    private static GlyphPen Of(IntPtr handle) => (GlyphPen)GCHandle.FromIntPtr(handle).Target!;

    // Plain glyphs stand on whole or half units. Only scaled parts of composite ones don't; there processors may differ in the last bit,
    // and a 64th of a unit is below 0.1 µm at any size that fits a panel's legend.
    private static float Even(float units) => MathF.Round(units * 64, MidpointRounding.AwayFromZero) / 64;

    private void Begin(float x, float y)
    {
        Close();
        _start = (x, y);
        _broken |= !Near(x) || !Near(y);
    }

    private void Add(GlyphStroke stroke)
    {
        _broken |= ++_count > MostStrokes || !Near(stroke.X1) || !Near(stroke.Y1) || !Near(stroke.X2) || !Near(stroke.Y2) || !Near(stroke.X) || !Near(stroke.Y);
        if (!_broken)
        {
            _strokes.Add(stroke);
        }
    }

    private void Close()
    {
        if (_strokes.Count > 0)
        {
            _contours.Add(new(_start.X, _start.Y, _strokes.ToImmutable()));
            _strokes.Clear();
        }
    }

    // Written so that not-a-number is not near.
    private static bool Near(float units) => Math.Abs(units) < Farthest;
}
