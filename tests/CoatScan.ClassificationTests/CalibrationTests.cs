using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class CalibrationTests
{
    // By hand: odds 16 at temperature 2 become 4; a shift of log 3 for the second class makes them 4/3.
    [Fact]
    public void Calibrate_divides_by_the_temperature_first_and_shifts_the_shares_after()
    {
        var count = VisualClasses.All.Count;
        var score = new float[count];
        (score[0], score[1]) = (16f / 17, 1f / 17);
        var shift = new double[count];
        shift[1] = Math.Log(3);

        var shares = Calibration.TemperatureOnly(2, shift, rank: 1).Calibrate(score);

        Assert.Equal(4.0 / 3, shares[0] / shares[1], 1e-5);
        Assert.Equal(1, shares.Sum(), 1e-12);
    }

    // By hand: log-probabilities log 0.5 and log 0.25 scaled by 2 and 1 with 0.1 added to the second.
    [Fact]
    public void Calibrate_scales_and_shifts_every_class_by_its_own_numbers()
    {
        var count = VisualClasses.All.Count;
        var score = new float[count];
        (score[0], score[1]) = (0.5f, 0.25f);
        var calibration = Calibration.TemperatureOnly(1, new double[count], rank: 1);
        (calibration.Scale[0], calibration.Offset[1]) = (2, 0.1);

        var shares = calibration.Calibrate(score);

        Assert.Equal(0.25 / (0.25 * Math.Exp(0.1)), shares[0] / shares[1], 1e-9);
    }
}
