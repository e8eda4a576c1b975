using System;
using System.Collections.Generic;
using System.Threading;
using System.Threading.Tasks;
using Microsoft.AspNetCore.Components.Server.Circuits;

namespace Lampblack.Workshop.Serving;

/// <summary>Counts the pages that are open, and tells when the last one was closed for good.</summary>
internal sealed class OpenPages : IDisposable
{
    /// <summary>A page that is loaded anew is away for a moment.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    private readonly Lock _lock = new();
    private readonly HashSet<string> _open = new(StringComparer.Ordinal);
    private readonly CancellationTokenSource _closed = new();
    private int _turn;

    /// <summary>Cancelled when the last page was closed and none came back.</summary>
    public CancellationToken Closed => _closed.Token;

    /// <summary>How many are open.</summary>
    public int Count
    {
        get
        {
            lock (_lock)
            {
                return _open.Count;
            }
        }
    }

    /// <inheritdoc />
    public void Dispose() => _closed.Dispose();

    private void Opened(string page)
    {
        lock (_lock)
        {
            _turn++;
            _open.Add(page);
        }
    }

    private void Left(string page)
    {
        int turn;
        lock (_lock)
        {
            if (!_open.Remove(page) || _open.Count > 0)
            {
                return;
            }

            turn = ++_turn;
        }

        _ = Task.Delay(Patience, CancellationToken.None).ContinueWith(_ => CloseUnless(turn), TaskScheduler.Default);
    }

    private void CloseUnless(int turn)
    {
        lock (_lock)
        {
            if (turn != _turn)
            {
                return;
            }
        }

        _closed.Cancel();
    }

    /// <summary>Sees pages come and go.</summary>
    /// <param name="pages">Where they are counted.</param>
    internal sealed class Watch(OpenPages pages) : CircuitHandler
    {
        /// <inheritdoc />
        public override Task OnCircuitOpenedAsync(Circuit circuit, CancellationToken cancellationToken)
        {
            ArgumentNullException.ThrowIfNull(circuit);
            pages.Opened(circuit.Id);
            return Task.CompletedTask;
        }

        /// <inheritdoc />
        public override Task OnCircuitClosedAsync(Circuit circuit, CancellationToken cancellationToken)
        {
            ArgumentNullException.ThrowIfNull(circuit);
            pages.Left(circuit.Id);
            return Task.CompletedTask;
        }
    }
}
