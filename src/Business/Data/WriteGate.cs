using System.Collections.Concurrent;

namespace MitigationOffice.Business.Data;

/// <summary>Lets one writer at a time, in order of arrival, at an embedded database: its own lock is unfair and
/// makes late comers wait for seconds. A server database needs none.</summary>
public static class WriteGate
{
    private static readonly ConcurrentDictionary<string, SemaphoreSlim> Gates = new(StringComparer.Ordinal);

    public static async Task<IDisposable> EnterAsync(string database, CancellationToken cancel)
    {
        var gate = Gates.GetOrAdd(database, _ => new SemaphoreSlim(1, 1));
        await gate.WaitAsync(cancel).ConfigureAwait(false);
        return new Leave(gate);
    }

    private sealed class Leave(SemaphoreSlim gate) : IDisposable
    {
        private SemaphoreSlim? _gate = gate;

        public void Dispose() => Interlocked.Exchange(ref _gate, null)?.Release();
    }
}
