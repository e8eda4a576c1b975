using System.Collections.Immutable;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Lampblack.Workshop.Serving;

/// <summary>Pictures and finished files, all from memory: no address names a file on the disk.</summary>
internal static class Files
{
    /// <summary>Maps the addresses.</summary>
    public static void Map(IEndpointRouteBuilder site, DeskBench bench)
    {
        // A panel that was taken off the desk while its picture was asked for is no fault of the page.
        site.MapGet("/face/{panel}/{version:int}/{kind}.png", (string panel, string kind) => bench.Face(panel) is { } face && kind is "day" or "lit"
            ? Png(kind == "day" ? face.DayPng : face.LitPng)
            : Results.NoContent());
        site.MapGet("/lamp/{panel}/{version:int}/{kind}.png", (string panel, int version, string kind) => bench.Lamp(panel) is { } held
            ? kind switch { "front" => Png(held.FrontPng), "mask" => Png(held.MaskPng), "holes" => Png(held.HolesPng), _ => Results.NotFound() }
            : Results.NoContent());
        site.MapGet("/made/{number:int}/{**path}", (int number, string path, bool? save) => bench.Shop.Find(number, path) is { } file
            ? Results.File(file.Bytes.AsMemory().ToArray(), TypeOf(file.Path), save == true ? file.Path[(file.Path.LastIndexOf('/') + 1)..] : null)
            : Results.NotFound());
    }

    private static IResult Png(ImmutableArray<byte> bytes) => Results.File(bytes.AsMemory().ToArray(), "image/png");

    private static string TypeOf(string path) => path[(path.LastIndexOf('.') + 1)..] switch
    {
        "pdf" => "application/pdf",
        "png" => "image/png",
        "json" => "application/json",

        // Pages and drawings that were made are shown as text or saved: nothing but the workshop's own page runs here.
        _ => "application/octet-stream",
    };
}
