namespace CoatScan.Imaging.Jpeg;

/// <summary>One component of a frame.</summary>
/// <param name="Id">Identifier.</param>
/// <param name="Horizontal">Horizontal sampling factor, [1, 4].</param>
/// <param name="Vertical">Vertical sampling factor, [1, 4].</param>
/// <param name="Quantizer">Number of its quantization table, [0, 3].</param>
internal sealed record JpegComponent(byte Id, int Horizontal, int Vertical, int Quantizer);
