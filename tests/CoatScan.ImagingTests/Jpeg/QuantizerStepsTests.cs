using CoatScan.Imaging.Jpeg;

namespace CoatScan.ImagingTests.Jpeg;

public sealed class QuantizerStepsTests
{
    // ITU-T T.81, table K.1 (luminance): row 16 11 10 16 24 40 51 61, column 16 12 14 14 18 24 49 72, here in zigzag order.
    private static readonly byte[] TableK1 =
    [
        16, 11, 12, 14, 12, 10, 16, 14, 13, 14, 18, 17, 16, 19, 24, 40, 26, 24, 22, 22, 24, 49, 35, 37, 29, 40, 58, 51, 61, 60, 57, 51,
        56, 55, 64, 72, 92, 78, 64, 68, 87, 69, 55, 56, 80, 109, 81, 87, 95, 98, 103, 104, 103, 62, 77, 113, 121, 112, 100, 120, 92, 101,
        103, 99,
    ];

    [Theory]
    [InlineData(16, 11.5)]
    [InlineData(8, 12)]
    [InlineData(5.3, 15)]
    [InlineData(4, 21)]
    [InlineData(100, 11.5)]
    [InlineData(1, 66.5)]
    public void LostAmplitude_is_half_a_step_over_the_gain_of_the_transform(double wavelengthPx, double meanStep) =>
        Assert.Equal(meanStep / 2 / Math.Sqrt(32), Read([0, .. TableK1])!.LostAmplitudeAt(wavelengthPx), 1e-12);

    [Fact]
    public void ReadInto_reads_wide_steps_and_several_tables()
    {
        var tables = new QuantizerSteps?[4];
        QuantizerSteps.ReadInto(tables, (byte[])[0x11, .. TableK1.SelectMany(step => new byte[] { 1, step }), 0, .. TableK1]);

        Assert.Equal(12 / 2.0 / Math.Sqrt(32), tables[0]!.LostAmplitudeAt(8), 1e-12);
        Assert.Equal(268 / 2.0 / Math.Sqrt(32), tables[1]!.LostAmplitudeAt(8), 1e-12);
    }

    [Fact]
    public void ReadInto_leaves_out_what_is_no_table()
    {
        Assert.Null(Read([]));
        Assert.Null(Read([0, 1, 2, 3]));
        Assert.Null(Read([0x10, .. TableK1]));
        Assert.Null(Read([7, .. TableK1]));
    }

    private static QuantizerSteps? Read(byte[] body)
    {
        var tables = new QuantizerSteps?[4];
        QuantizerSteps.ReadInto(tables, body);
        return tables.FirstOrDefault(table => table is not null);
    }
}
