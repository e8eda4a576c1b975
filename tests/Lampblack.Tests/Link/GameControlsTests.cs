using System.Linq;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

public sealed class GameControlsTests
{
    /// <summary>points 0-2, call 3, road 4-6, speed 7-8, scene 9-11; volume is axis 0.</summary>
    [Fact]
    public void Buttons_and_axes_follow_the_desks_order()
    {
        GameControls game = new(YardPlan.Plan, 0);
        Assert.Equal((12, 1), (game.Buttons, game.Axes));
        Assert.Equal([new(false, 1, 0), new(false, 2, 0), new(false, 0, 1)], game.Take(new StateEvent(0, "yard/points", "MAIN")));
        Assert.Equal([new(false, 3, 1)], game.Take(new StateEvent(0, "yard/call", "in")));
        Assert.Equal([new(false, 3, 0)], game.Take(new StateEvent(0, "yard/call", "out")));
        Assert.Equal([new(false, 4, 0), new(false, 5, 0), new(false, 6, 0)], game.Take(new StateEvent(0, "yard/road", null)));
        Assert.Equal([new(true, 0, 2046)], game.Take(new TravelEvent(0, "yard/volume", 0.5)));
        Assert.Empty(game.Take(new StateEvent(0, "yard/nobody", "x")));
    }

    [Fact]
    public void Each_detent_is_struck_long_enough_to_be_seen()
    {
        GameControls game = new(YardPlan.Plan, 0);
        Assert.Null(game.DueMs);
        Assert.Empty(game.Take(new TurnEvent(0, "yard/speed", 2)));
        Assert.Empty(game.Take(new TurnEvent(0, "yard/speed", -1)));
        Assert.Equal([new(false, 7, 1), new(false, 8, 1)], game.Tick(0));
        Assert.Empty(game.Tick(34));
        Assert.Equal([new(false, 7, 0), new(false, 8, 0)], game.Tick(35));
        Assert.Equal([new(false, 7, 1)], game.Tick(70));
        Assert.Equal([new(false, 7, 0)], game.Tick(105));
        Assert.Null(game.DueMs);
    }

    [Fact]
    public void A_knob_spun_wildly_does_not_strike_for_ever()
    {
        GameControls game = new(YardPlan.Plan, 0);
        game.Take(new TurnEvent(0, "yard/speed", 30_000));
        Assert.Equal(24, Enumerable.Range(0, 200).Count(step => game.Tick(step * 35).Any(move => move.Value == 1)));
    }
}
