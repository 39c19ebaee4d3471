namespace CoatScan.Imaging.Jpeg;

/// <summary>A segment that the entropy coder needs.</summary>
/// <param name="Marker">Second byte of the marker.</param>
/// <param name="Offset">Where its parameters begin, behind the length field.</param>
/// <param name="Length">Bytes of its parameters.</param>
/// <param name="DataOffset">For a scan: where the entropy-coded data begins.</param>
/// <param name="DataLength">For a scan: bytes of the entropy-coded data.</param>
internal readonly record struct JpegSegment(byte Marker, int Offset, int Length, int DataOffset, int DataLength);
