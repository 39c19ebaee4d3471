using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class StatementTests
{
    [Fact]
    public void Diagnose_keeps_who_said_what()
    {
        var facts = new PanelFacts
        {
            Evidence = ["form.domes", "history.gradual"],
            Statements = [new("history.gradual", "owner"), new("relief.raised", "technician"), new("history.gradual", "neighbor")],
            Readings = new() { FilmUm = [330] },
        };
        Dictionary<string, IReadOnlyList<string>> said = Known.Diagnostician.Diagnose(facts, null).Evidence
            .ToDictionary(e => e.Id, e => e.SaidBy);
        Assert.Equal(["caller"], said["form.domes"]);
        Assert.Equal(["caller", "neighbor", "owner"], said["history.gradual"]);
        Assert.Equal(["technician"], said["relief.raised"]);
        Assert.Equal(["reading"], said["film.over_300_um"]);
    }

    [Fact]
    public void Diagnose_statements_weigh_as_the_same_evidence_of_the_caller()
    {
        PanelDiagnosis stated = Known.Diagnostician.Diagnose(
            new PanelFacts { Statements = [new("form.domes", "owner"), new("relief.raised", "owner"), new("relief.raised", "painter")] }, null);
        Assert.Equal(
            Known.Diagnose("form.domes", "relief.raised").Conditions.Select(c => c.Probability),
            stated.Conditions.Select(c => c.Probability));
    }

    [Fact]
    public void Diagnose_photo_evidence_names_the_photos_that_show_it()
    {
        PhotoEvidence photo = Known.Photo("domes") with
        {
            MeasuredSigns = ["size.1_to_5_mm"],
            PhotosOf = new Dictionary<string, IReadOnlyList<int>> { ["domes"] = [2, 3], ["size.1_to_5_mm"] = [3] },
        };
        IReadOnlyList<EvidenceItem> evidence = Known.Diagnostician.Diagnose(new PanelFacts(), photo).Evidence;
        Assert.Equal(["photo 2", "photo 3"], evidence.Single(e => e.Id == "photo.domes").SaidBy);
        Assert.Equal(["photo 3"], evidence.Single(e => e.Id == "size.1_to_5_mm").SaidBy);
    }

    [Fact]
    public void Validate_statements_at_fault_name_the_place()
    {
        Refused([new("form.ring", "owner")], ErrorReason.EvidenceUnknown, "statements[0].evidence");
        Refused([new("form.rings", "")], ErrorReason.FieldInvalid, "statements[0].saidBy");
        Refused([new("form.rings", new string('x', 65))], ErrorReason.FieldInvalid, "statements[0].saidBy");
        Refused(
            [new("test.mild_acid.removes", "owner"), new("test.mild_acid.no_effect", "painter")],
            ErrorReason.EvidenceConflict,
            "statements[1].evidence");
        Refused([.. Enumerable.Repeat(new Statement("form.rings", "owner"), 201)], ErrorReason.FieldInvalid, "statements");
    }

    [Fact]
    public void Validate_two_hundred_ids_pass_the_count_and_one_more_does_not()
    {
        string[] ids = [.. Enumerable.Repeat("form.rings", 201)];
        CoatScanException e = Assert.Throws<CoatScanException>(() => FactsValidator.Validate(new() { Evidence = ids }, Known.Base));
        Assert.Equal((ErrorReason.FieldInvalid, "evidence"), (e.Reason, e.Field));
        e = Assert.Throws<CoatScanException>(() => FactsValidator.Validate(new() { Evidence = [.. ids.Skip(1)] }, Known.Base));
        Assert.Equal("evidence[1]", e.Field);
    }

    [Fact]
    public void RequireEvidence_nothing_said_is_refused_and_one_reading_is_enough()
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() => FactsValidator.RequireEvidence(new()));
        Assert.Equal((ErrorReason.FieldInvalid, "evidence"), (e.Reason, e.Field));
        FactsValidator.RequireEvidence(new() { Readings = new() { Gloss60 = 20 } });
        FactsValidator.RequireEvidence(new() { Statements = [new("form.rings", "owner")] });
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1000.1)]
    [InlineData(double.NaN)]
    public void Validate_fault_depth_out_of_range_is_refused(double depthUm)
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() =>
            FactsValidator.Validate(new() { Readings = new() { FaultDepthUm = depthUm } }, Known.Base));
        Assert.Equal((ErrorReason.ValueOutOfRange, "readings.faultDepthUm"), (e.Reason, e.Field));
    }

    [Fact]
    public void Validate_film_panels_at_fault_name_the_place()
    {
        RefusedFilm([new("hood", [])], "readings.filmPanels[0].filmUm");
        RefusedFilm([new("", [100])], "readings.filmPanels[0].panel");
        RefusedFilm([new("hood", [100]), new("Hood", [100])], "readings.filmPanels[1].panel");
        RefusedFilm([new("hood", [100, -1])], "readings.filmPanels[0].filmUm[1]");
        RefusedFilm([.. Enumerable.Range(0, 41).Select(i => new PanelFilm($"panel {i}", [100]))], "readings.filmPanels");
    }

    private static void Refused(IReadOnlyList<Statement> statements, ErrorReason reason, string field)
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() =>
            FactsValidator.Validate(new() { Statements = statements }, Known.Base));
        Assert.Equal((reason, field), (e.Reason, e.Field));
    }

    private static void RefusedFilm(IReadOnlyList<PanelFilm> panels, string field)
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() =>
            FactsValidator.Validate(new() { Readings = new() { FilmPanels = panels } }, Known.Base));
        Assert.Equal(field, e.Field);
    }
}
