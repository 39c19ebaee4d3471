using CoatScan.Reports;
using CoatScan.Service.Page.Words;

namespace CoatScan.Service.Page;

/// <summary>What every view needs beside its own content.</summary>
/// <param name="Words">Words of the page.</param>
/// <param name="Sheets">Words of the sheets.</param>
/// <param name="Address">Path and query of the page, to come back to.</param>
public sealed record PageContext(PageWords Words, SheetWords Sheets, string Address);
