using System;
using System.Runtime.InteropServices;
using System.Threading;

namespace Lampblack.Cli;

/// <summary>Turns the first Ctrl-C (or the system's wish that the program ends) into a cancellation. A second one ends the program at once.</summary>
internal sealed class Interruption : IDisposable
{
    private readonly CancellationTokenSource source = new();
    private readonly PosixSignalRegistration interrupt;
    private readonly PosixSignalRegistration terminate;

    /// <summary>Listens from now on.</summary>
    internal Interruption()
    {
        interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
    }

    /// <summary>Cancelled by the first Ctrl-C.</summary>
    internal CancellationToken Token => source.Token;

    /// <inheritdoc />
    public void Dispose()
    {
        interrupt.Dispose();
        terminate.Dispose();
        source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        context.Cancel = !source.IsCancellationRequested;
        source.Cancel();
    }
}
