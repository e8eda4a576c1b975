using System;
using System.Runtime.InteropServices;

namespace Lampblack.Lettering;

/// <summary>
/// HarfBuzz's own outline drawing (hb-draw.h), which its .NET wrapper leaves out although the same native library exports it.
/// It reads 'glyf' and 'CFF' without hinting, so the outlines are the same on every system.
/// </summary>
internal static class NativeDrawing
{
    private const string Library = "libHarfBuzzSharp";

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    internal delegate void PointCallback(IntPtr functions, IntPtr pen, IntPtr state, float x, float y, IntPtr user);

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    internal delegate void QuadraticCallback(IntPtr functions, IntPtr pen, IntPtr state, float controlX, float controlY, float x, float y, IntPtr user);

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    internal delegate void CubicCallback(
        IntPtr functions, IntPtr pen, IntPtr state, float firstX, float firstY, float secondX, float secondY, float x, float y, IntPtr user);

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    internal delegate void CloseCallback(IntPtr functions, IntPtr pen, IntPtr state, IntPtr user);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_create", CallingConvention = CallingConvention.Cdecl)]
    internal static extern IntPtr CreateFunctions();

    [DllImport(Library, EntryPoint = "hb_draw_funcs_make_immutable", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void MakeImmutable(IntPtr functions);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_set_move_to_func", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void SetMoveTo(IntPtr functions, PointCallback callback, IntPtr user, IntPtr destroy);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_set_line_to_func", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void SetLineTo(IntPtr functions, PointCallback callback, IntPtr user, IntPtr destroy);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_set_quadratic_to_func", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void SetQuadraticTo(IntPtr functions, QuadraticCallback callback, IntPtr user, IntPtr destroy);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_set_cubic_to_func", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void SetCubicTo(IntPtr functions, CubicCallback callback, IntPtr user, IntPtr destroy);

    [DllImport(Library, EntryPoint = "hb_draw_funcs_set_close_path_func", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void SetClosePath(IntPtr functions, CloseCallback callback, IntPtr user, IntPtr destroy);

    [DllImport(Library, EntryPoint = "hb_font_draw_glyph", CallingConvention = CallingConvention.Cdecl)]
    internal static extern void DrawGlyph(IntPtr font, uint glyph, IntPtr functions, IntPtr pen);
}
