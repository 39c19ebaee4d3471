namespace CoatScan.Imaging.Children;

/// <summary>How child processes are started, and what one photo may cost them.</summary>
/// <param name="Command">The program and its arguments; it runs <see cref="DecodeWorker"/>.</param>
/// <param name="MemoryMb">Most memory of a child, megabytes.</param>
/// <param name="CpuSeconds">Most processor time of one photo, seconds.</param>
public sealed record ChildDecoderSettings(IReadOnlyList<string> Command, int MemoryMb, int CpuSeconds);
