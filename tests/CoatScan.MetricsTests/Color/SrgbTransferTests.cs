using CoatScan.Metrics.Color;

namespace CoatScan.MetricsTests.Color;

public sealed class SrgbTransferTests
{
    [Fact]
    public void ToLinear_reference_codes_match_table()
    {
        foreach (var row in ReferenceData.Read("srgb_lab").GetProperty("eotf").EnumerateArray())
        {
            var (code, linear) = (row[0].GetInt32(), row[1].GetDouble());
            Assert.Equal(linear, SrgbTransfer.ToLinear(code / 255.0), 1e-9);
            Assert.Equal(linear, SrgbTransfer.ByteToLinear[code], 1e-7);
        }
    }

    [Fact]
    public void ToByte_of_every_code_returns_it()
    {
        for (var code = 0; code <= 255; code++)
        {
            Assert.Equal(code, SrgbTransfer.ToByte(SrgbTransfer.ByteToLinear[code]));
            Assert.Equal(code / 255.0, SrgbTransfer.FromLinear(SrgbTransfer.ToLinear(code / 255.0)), 1e-12);
        }
    }

    [Theory]
    [InlineData(-0.5, 0)]
    [InlineData(1.5, 255)]
    public void ToByte_outside_the_range_is_clamped(double linear, int expected) =>
        Assert.Equal(expected, SrgbTransfer.ToByte(linear));
}
