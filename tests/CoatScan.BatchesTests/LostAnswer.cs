using System.Collections.Concurrent;
using System.Reflection;
using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <summary>A ledger that does what it is asked, but whose first answer of one method is lost on its way.</summary>
public class LostAnswer : DispatchProxy
{
    private readonly ConcurrentDictionary<string, int> _calls = [];
    private IBatchLedger _inner = null!;
    private string _method = "";
    private int _lost;

    /// <summary>Puts one before a ledger.</summary>
    public static (IBatchLedger Ledger, LostAnswer Calls) Of(IBatchLedger inner, string method)
    {
        var ledger = Create<IBatchLedger, LostAnswer>();
        var proxy = (LostAnswer)(object)ledger;
        (proxy._inner, proxy._method) = (inner, method);
        return (ledger, proxy);
    }

    /// <summary>Waits until a method was called, and has ended, once more.</summary>
    public async Task AnotherAsync(string method)
    {
        // The one that runs may have begun before.
        var wanted = _calls.GetValueOrDefault(method) + 2;
        while (_calls.GetValueOrDefault(method) < wanted)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }

    protected override object? Invoke(MethodInfo? targetMethod, object?[]? args)
    {
        var answer = targetMethod!.Invoke(_inner, args);
        if (targetMethod.Name == _method && Interlocked.Exchange(ref _lost, 1) == 0)
        {
            return LoseAsync((Task<ItemClaim?>)answer!);
        }

        (answer as Task)?.ContinueWith(
            _ => _calls.AddOrUpdate(targetMethod.Name, 1, (_, count) => count + 1), TaskScheduler.Default);
        return answer;
    }

    private static async Task<ItemClaim?> LoseAsync(Task<ItemClaim?> answer)
    {
        await answer;
        throw new CoatScanException(ErrorReason.StorageUnavailable, "The store does not answer; try again later.");
    }
}
