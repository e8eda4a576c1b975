using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Parts;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Lighting;

/// <summary>
/// Desks of four parts by chance, turned by chance, over boxes about as deep as one of them needs: what is planned stands nowhere where a body comes down to it.
/// Where each body lies is reckoned here, from the catalogue and the desk's own figures.
/// </summary>
public sealed class UnderRandomBodiesTests
{
    private const int Desks = 12;
    private const double WideMm = 190;
    private const double HighMm = 130;

    // From a body's end to what stands below it.
    private const double AirMm = 1;

    // A finger's breadth beside a body: what is planned there would have been planned below it.
    private const double BesideMm = 12;

    private static readonly ImmutableArray<string> Ids =
        ["toggle-mini-on-on", "toggle-standard-on-on", "pot-9mm", "pot-24mm", "encoder-m7", "rotary-12x30", "key-16", "button-22-momentary", "meter-round-45", "meter-48x29"];

    /// <summary>How far an emitter rises from the floor, and how much of the floor it takes: lamps and strips in hand, from memory.</summary>
    [Theory]
    [InlineData("emitter-5mm-wide", 6, 6, 6)]
    [InlineData("emitter-5mm-round", 9, 6, 6)]
    [InlineData("emitter-3528", 2, 6, 6)]
    [InlineData("strip-120", 2, 25 / 3.0, 8)]
    public void Nothing_is_planned_where_a_body_comes_down(string emitter, double raisedMm, double longMm, double acrossMm)
    {
        var (under, beside) = (0, 0);
        for (var seed = 1; seed <= Desks; seed++)
        {
            var chance = new Chance((ulong)seed + 800);
            var ids = Enumerable.Range(0, 4).Select(_ => Ids[(int)chance.Between(0, Ids.Length)]).ToList();

            // About as deep as one of them needs.
            var depthMm = Math.Max(26, Math.Round(PartCatalogue.BuiltIn.Find(ids[0])!.Body!.Depth.Mm + chance.Between(-2, raisedMm + 4), MidpointRounding.AwayFromZero));
            var text = new StringBuilder(string.Create(CultureInfo.InvariantCulture, $"lampblack = 1\n[lighting]\nemitter = \"{emitter}\"\nsupply = \"12 V\"\ndepth = {depthMm}\n[[panel]]\nid = \"one\"\nsize = [{WideMm}, {HighMm}]\n"));
            var bodies = new List<(string Id, double DepthMm, Region<PanelSpace> Shape)>();
            for (var place = 0; place < 4; place++)
            {
                var (id, turn) = (ids[place], 30 * (int)chance.Between(0, 12));
                var at = new Point<PanelSpace>(Math.Round((WideMm / 4) + (place % 2 * WideMm / 2) + chance.Between(-8, 8), MidpointRounding.AwayFromZero), Math.Round((HighMm / 4) + (place / 2 * HighMm / 2) + chance.Between(-3, 3), MidpointRounding.AwayFromZero));
                text.Append(CultureInfo.InvariantCulture, $"[[panel.control]]\nid = \"c{place}\"\npart = \"{id}\"\nat = [{at.XMm}, {at.YMm}]\nturn = {turn}\nlegend = \"NORTH\"\n");

                // A desk file turns clockwise.
                var part = PartCatalogue.BuiltIn.Find(id)!;
                bodies.Add((id, part.Body!.Depth.Mm, part.BodyShape.Map(Affine<ItemSpace, ItemSpace>.Turn(-turn).Then(Affine<ItemSpace, PanelSpace>.Shift(at.XMm, at.YMm)))));
            }

            var emitters = Planned(text.ToString());
            Assert.NotEmpty(emitters);
            foreach (var lamp in emitters)
            {
                // A strip's piece may lie either way; what it takes at least is its narrow side all round.
                var halfMm = Math.Min(longMm, acrossMm) / 2;
                var foot = Region<PanelSpace>.Rectangle(new(lamp.XMm - halfMm, lamp.YMm - halfMm, 2 * halfMm, 2 * halfMm));
                foreach (var body in bodies.Where(body => body.Shape.Touches(foot)))
                {
                    Assert.True(body.DepthMm <= depthMm - raisedMm - AirMm, string.Create(CultureInfo.InvariantCulture, $"desk {seed}, {depthMm} mm deep: the emitter at {lamp.XMm}, {lamp.YMm} stands where {body.Id} comes down {body.DepthMm} mm"));
                    under++;
                }

                beside += bodies.Count(body => body.DepthMm > depthMm - raisedMm - AirMm && body.Shape.Grow(BesideMm).Touches(foot));
            }
        }

        // Both were tried: bodies that leave room, and deep ones that are in the way.
        Assert.True(under > 0 && beside > 0, $"{under} under bodies, {beside} beside deep ones");
    }

    private static List<Point<PanelSpace>> Planned(string desk)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            Light.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), new("A4", "option") { GridMm = 40 }, new Progress<string>(), CancellationToken.None).WriteTo(writer);
            writer.WriteEndObject();
        }

        using var json = JsonDocument.Parse(stream.ToArray());
        return [.. json.RootElement.GetProperty("emitters").EnumerateArray().Select(one => new Point<PanelSpace>(one.GetProperty("xMm").GetDouble(), one.GetProperty("yMm").GetDouble()))];
    }
}
