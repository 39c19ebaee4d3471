using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Makes the finding of one item. A test puts a fake here.</summary>
public interface IItemGrader
{
    /// <summary>Grades one item of the current tenant.</summary>
    /// <param name="item">What to grade.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">A photo or a fact is refused.</exception>
    Task<GradedItem> GradeAsync(NewItem item, CancellationToken cancellationToken);
}
