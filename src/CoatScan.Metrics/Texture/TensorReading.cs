namespace CoatScan.Metrics.Texture;

/// <summary>How strongly a plane's structure keeps to one direction.</summary>
/// <param name="Coherence">Mean of (l1 - l2) / (l1 + l2) weighted by l1 + l2, [0, 1].</param>
/// <param name="GlobalCoherence">The same of the tensor summed over the plane: 1 only if all places share one direction.</param>
/// <param name="AngleDegrees">Direction of the gradient over the plane, (-90, 90], from the x axis toward rows that grow.</param>
internal readonly record struct TensorReading(double Coherence, double GlobalCoherence, double AngleDegrees);
