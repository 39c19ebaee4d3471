namespace CoatScan.Metrics.Filters;

/// <summary>Takes one row of a filtered plane; its samples are gone after the call.</summary>
/// <param name="y">Index of the row; they come rising.</param>
/// <param name="row">Its samples.</param>
internal delegate void FilteredRow(int y, ReadOnlySpan<float> row);
