using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>Lots of files that are made beside the rest of a build.</summary>
public sealed class FilesInMakingTests
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(60);

    [Fact]
    public void Files_come_in_the_order_in_which_their_lots_were_begun_however_they_end()
    {
        using var making = new FilesInMaking(TestContext.Current.CancellationToken);
        using var second = new ManualResetEventSlim();
        making.Begin(_ =>
        {
            Assert.True(second.Wait(Long));
            return [File("first"), File("also first")];
        });
        making.Begin(_ => Ending(second));
        making.Begin(_ => [File("third")]);
        Assert.Equal(["first", "also first", "second", "third"], making.Finish().Select(file => file.Path));

        // A lot is only made when it is listed, and that is the making's part, too.
        static IEnumerable<OutputFile> Ending(ManualResetEventSlim ended)
        {
            yield return File("second");
            ended.Set();
        }
    }

    [Fact]
    public async Task Two_lots_are_made_at_a_time_and_never_three()
    {
        using var making = new FilesInMaking(TestContext.Current.CancellationToken);
        using var go = new SemaphoreSlim(0);
        using var begun = new SemaphoreSlim(0);
        var (now, most) = (0, 0);
        for (var lot = 0; lot < 5; lot++)
        {
            making.Begin(_ =>
            {
                var seen = Interlocked.Increment(ref now);
                lock (go)
                {
                    most = Math.Max(most, seen);
                }

                begun.Release();
                Assert.True(go.Wait(Long));
                Interlocked.Decrement(ref now);
                return [];
            });
        }

        // Both places are taken without anybody asking for the files, and the third lot waits until one is free.
        Assert.True(await begun.WaitAsync(Long, TestContext.Current.CancellationToken));
        Assert.True(await begun.WaitAsync(Long, TestContext.Current.CancellationToken));
        Assert.False(await begun.WaitAsync(TimeSpan.FromMilliseconds(200), TestContext.Current.CancellationToken));
        go.Release();
        Assert.True(await begun.WaitAsync(Long, TestContext.Current.CancellationToken));
        go.Release(4);
        Assert.Empty(making.Finish());
        Assert.Equal(2, most);
    }

    [Fact]
    public void What_one_lot_complains_of_is_told_as_it_is_and_the_others_are_made_nevertheless()
    {
        using var making = new FilesInMaking(TestContext.Current.CancellationToken);
        var made = 0;
        making.Begin(_ => throw new InvalidTimeZoneException("of the lot"));
        making.Begin(_ => Counted());
        making.Begin(_ => Counted());
        Assert.Equal("of the lot", Assert.Throws<InvalidTimeZoneException>(making.Finish).Message);
        Assert.True(SpinWait.SpinUntil(() => Volatile.Read(ref made) == 2, Long));

        IEnumerable<OutputFile> Counted()
        {
            Interlocked.Increment(ref made);
            return [File("one")];
        }
    }

    [Fact]
    public void Giving_up_ends_what_is_being_made_begins_nothing_more_and_waits_until_all_is_quiet()
    {
        var (ended, late) = (0, 0);
        using (var making = new FilesInMaking(TestContext.Current.CancellationToken))
        using (var begun = new CountdownEvent(2))
        {
            for (var lot = 0; lot < 2; lot++)
            {
                making.Begin(ending =>
                {
                    begun.Signal();
                    Assert.True(ending.WaitHandle.WaitOne(Long));

                    // Longer than it takes to come back from Dispose, if that didn't wait.
                    Thread.Sleep(100);
                    Interlocked.Increment(ref ended);
                    throw new InvalidOperationException("nobody hears this");
                });
            }

            Assert.True(begun.Wait(Long, TestContext.Current.CancellationToken));
            making.Begin(_ =>
            {
                Interlocked.Increment(ref late);
                return [];
            });
        }

        Assert.Equal((2, 0), (ended, late));
    }

    [Fact]
    public void Stopping_the_build_stops_the_making()
    {
        using var stop = new CancellationTokenSource();
        using var making = new FilesInMaking(stop.Token);
        making.Begin(ending =>
        {
            stop.Cancel();
            ending.ThrowIfCancellationRequested();
            return [File("too late")];
        });
        Assert.ThrowsAny<OperationCanceledException>(making.Finish);
    }

    private static OutputFile File(string path) => new(path, "made by a test", ImmutableArray<byte>.Empty);
}
