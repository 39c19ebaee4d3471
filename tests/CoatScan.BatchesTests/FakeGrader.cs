using CoatScan.Batches;

namespace CoatScan.BatchesTests;

/// <summary>Grades without photos; what it does meanwhile the test says.</summary>
internal sealed class FakeGrader(Func<NewItem, Task> work) : IItemGrader
{
    private int _count;

    /// <summary>How often it was asked.</summary>
    public int Count => Volatile.Read(ref _count);

    /// <summary>Whether it ends only when it is stopped.</summary>
    public bool WaitsForStop { get; init; }

    public async Task<GradedItem> GradeAsync(NewItem item, CancellationToken cancellationToken)
    {
        var number = Interlocked.Increment(ref _count);
        await (WaitsForStop ? Task.Delay(Timeout.Infinite, cancellationToken) : work(item));
        return Samples.Graded($"{item.Key}-{number}");
    }
}
