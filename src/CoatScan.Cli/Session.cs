namespace CoatScan.Cli;

/// <summary>The streams and the screen of one run of the program.</summary>
internal sealed record Session(TextReader In, TextWriter Out, TextWriter Error, Terminal Terminal);
