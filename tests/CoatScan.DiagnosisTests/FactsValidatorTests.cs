using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class FactsValidatorTests
{
    [Fact]
    public void Validate_nothing_said_passes() => FactsValidator.Validate(new PanelFacts(), Known.Base);

    [Fact]
    public void Validate_limits_themselves_pass() => FactsValidator.Validate(
        new PanelFacts
        {
            Panel = new string('p', 64),
            ExternalRef = new string('r', 128),
            MmPerPx = 10,
            Readings = new() { FilmUm = [10000, 0.1], Gloss60 = 200, DeltaE00 = 100 },
        },
        Known.Base);

    [Fact]
    public void Validate_film_reading_that_agrees_with_the_evidence_passes() => FactsValidator.Validate(
        new PanelFacts { Evidence = ["film.over_300_um"], Readings = new() { FilmUm = [330] } }, Known.Base);

    [Theory]
    [InlineData("form.ring", "Did you mean 'form.rings'?")]
    [InlineData("rings", "Did you mean 'form.rings'?")]
    [InlineData("FORM.RINGS", "Did you mean 'form.rings'?")]
    [InlineData("", "no id")]
    [InlineData("qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq", "...")]
    [InlineData("form.rings\u0007", "form.rings?")]
    public void Validate_unknown_evidence_names_the_place(string id, string expected)
    {
        CoatScanException e = Refused(new() { Evidence = ["form.domes", id] });
        Assert.Equal(ErrorReason.EvidenceUnknown, e.Reason);
        Assert.Equal("evidence[1]", e.Field);
        Assert.Contains(expected, e.Message, StringComparison.Ordinal);
        Assert.True(e.Message.Length < 200);
    }

    [Fact]
    public void Validate_repeated_evidence_is_refused()
    {
        CoatScanException e = Refused(new() { Evidence = ["form.domes", "relief.raised", "form.domes"] });
        Assert.Equal(ErrorReason.FieldInvalid, e.Reason);
        Assert.Equal("evidence[2]", e.Field);
    }

    [Theory]
    [InlineData("test.mild_acid.removes", "test.mild_acid.no_effect")]
    [InlineData("test.polish_pad.body_color", "test.polish_pad.no_color")]
    [InlineData("test.loupe.open_crack", "test.loupe.ploughed_groove")]
    [InlineData("film.under_80_um", "film.over_300_um")]
    [InlineData("measured.gloss_60_under_70", "measured.gloss_60_at_least_85")]
    public void Validate_two_outcomes_of_one_test_are_refused(string first, string second)
    {
        CoatScanException e = Refused(new() { Evidence = [first, "form.domes", second] });
        Assert.Equal(ErrorReason.EvidenceConflict, e.Reason);
        Assert.Equal("evidence[2]", e.Field);
        Assert.Equal(first, e.Metadata["first"]);
        Assert.Equal(second, e.Metadata["second"]);
    }

    [Fact]
    public void Validate_outcomes_of_different_trials_of_one_test_pass() => FactsValidator.Validate(
        new PanelFacts { Evidence = ["test.polish_spot.restores", "test.polish_pad.body_color"] }, Known.Base);

    [Fact]
    public void Validate_reading_against_the_evidence_is_refused()
    {
        CoatScanException e = Refused(new() { Evidence = ["film.under_80_um"], Readings = new() { FilmUm = [330] } });
        Assert.Equal(ErrorReason.EvidenceConflict, e.Reason);
        Assert.Equal("readings.filmUm", e.Field);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(10000.5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Validate_film_reading_out_of_range_names_the_place(double um)
    {
        CoatScanException e = Refused(new() { Readings = new() { FilmUm = [120, um] } });
        Assert.Equal(ErrorReason.ValueOutOfRange, e.Reason);
        Assert.Equal("readings.filmUm[1]", e.Field);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(200.1)]
    [InlineData(double.NaN)]
    public void Validate_gloss_out_of_range_is_refused(double gloss) =>
        OutOfRange(new() { Readings = new() { Gloss60 = gloss } }, "readings.gloss60");

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100.1)]
    [InlineData(double.NaN)]
    public void Validate_color_difference_out_of_range_is_refused(double difference) =>
        OutOfRange(new() { Readings = new() { DeltaE00 = difference } }, "readings.deltaE00");

    [Theory]
    [InlineData(0)]
    [InlineData(10.1)]
    [InlineData(double.NaN)]
    public void Validate_scale_out_of_range_is_refused(double scale) => OutOfRange(new() { MmPerPx = scale }, "mmPerPx");

    [Theory]
    [InlineData(0)]
    [InlineData(100_001)]
    [InlineData(double.NaN)]
    public void Validate_distance_out_of_range_is_refused(double distance)
    {
        OutOfRange(new() { ReflectedDistanceMm = distance, CameraDistanceMm = 500 }, "reflectedDistanceMm");
        OutOfRange(new() { ReflectedDistanceMm = 500, CameraDistanceMm = distance }, "cameraDistanceMm");
    }

    [Fact]
    public void Validate_one_distance_without_the_other_is_refused()
    {
        CoatScanException e = Refused(new() { ReflectedDistanceMm = 300 });
        Assert.Equal((ErrorReason.FieldInvalid, "cameraDistanceMm"), (e.Reason, e.Field));
        Assert.Equal("reflectedDistanceMm", Refused(new() { CameraDistanceMm = 300 }).Field);
    }

    [Fact]
    public void Validate_too_many_film_readings_are_refused()
    {
        CoatScanException e = Refused(new() { Readings = new() { FilmUm = [.. Enumerable.Repeat(100.0, 201)] } });
        Assert.Equal(ErrorReason.FieldInvalid, e.Reason);
        Assert.Equal("readings.filmUm", e.Field);
    }

    [Fact]
    public void Validate_long_or_odd_text_is_refused()
    {
        Assert.Equal("panel", Refused(new() { Panel = new string('p', 65) }).Field);
        Assert.Equal("externalRef", Refused(new() { ExternalRef = new string('r', 129) }).Field);
        CoatScanException e = Refused(new() { Panel = "hood\n" });
        Assert.Equal(ErrorReason.FieldInvalid, e.Reason);
        Assert.Equal("panel", e.Field);
    }

    private static void OutOfRange(PanelFacts facts, string field)
    {
        CoatScanException e = Refused(facts);
        Assert.Equal(ErrorReason.ValueOutOfRange, e.Reason);
        Assert.Equal(field, e.Field);
    }

    private static CoatScanException Refused(PanelFacts facts) =>
        Assert.Throws<CoatScanException>(() => FactsValidator.Validate(facts, Known.Base));
}
