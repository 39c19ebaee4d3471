using CoatScan.Reports;
using CoatScan.Service.Page.Words;
using Microsoft.AspNetCore.Components;

namespace CoatScan.Service.Page;

/// <summary>A view: rendered once on the server, nothing of it runs in the browser.</summary>
public abstract class PageView : ComponentBase
{
    /// <summary>What every view needs.</summary>
    [Parameter]
    [EditorRequired]
    public PageContext Page { get; set; } = null!;

    internal PageWords W => Page.Words;

    /// <summary>Language of what the sheets say, which may be another one than the page's.</summary>
    internal string SheetLanguage => Page.Sheets.Language;

    /// <summary>Blocks of a sheet as markup; they escape for themselves.</summary>
    internal static MarkupString Blocks(IEnumerable<Block> blocks) => new(HtmlWriter.Fragment(blocks));
}
