using System.Numerics;

namespace CoatScan.DemoPanels.Camera;

public sealed class ToneCurveTests
{
    [Fact]
    public void Encode_several_values_equals_encoding_each()
    {
        foreach (var linear in (ReadOnlySpan<float>)[-0.1f, 0f, 0.002f, 0.18f, 0.9f, 3.9f, 50f])
        {
            Assert.Equal(ToneCurve.Encode(linear, 0.4f), ToneCurve.Encode(new Vector<float>(linear), 0.4f)[0], 1e-6f);
        }
    }
}
