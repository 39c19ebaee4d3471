using System.Text.Json;
using CoatScan.Findings;
using CsCheck;

namespace CoatScan.DiagnosisTests;

public class RankingTests
{
    // A wrap is no paint, so nothing is ranked then.
    private static readonly string[] Vocabulary = [.. Known.Base.Evidence.Keys.Where(id => id != "finish.wrap")];

    /// <summary>Valid evidence: up to 20 ids, no repeats, one outcome of a test.</summary>
    private static readonly Gen<string[]> AnyEvidence =
        Gen.Int[0, Vocabulary.Length - 1].Array[0, 20].Select(places => Valid(places.Select(i => Vocabulary[i])));

    [Fact]
    public void Diagnose_listed_weights_reproduce_the_shares() => AnyEvidence.Sample(evidence =>
    {
        PanelDiagnosis answer = Known.Diagnose(evidence);
        Reproduces(answer.Conditions.Select(c => (c.Probability, c.Evidence)));
        foreach (IGrouping<string, CauseShare> causes in answer.Causes.GroupBy(c => c.Condition))
        {
            Reproduces(causes.Select(c => (c.Probability, c.Evidence)));
        }
    }, iter: 200);

    [Fact]
    public void Diagnose_with_a_photo_listed_weights_reproduce_the_shares() =>
        Reproduces(Known.Diagnostician
            .Diagnose(new PanelFacts { Evidence = ["finish.repaint", "color.rust"] }, Known.Photo("domes"))
            .Conditions.Select(c => (c.Probability, c.Evidence)));

    [Fact]
    public void Diagnose_shares_sum_to_one() => AnyEvidence.Sample(evidence =>
    {
        PanelDiagnosis answer = Known.Diagnose(evidence);
        Assert.Equal(1, answer.Conditions.Sum(c => c.Probability), 1e-9);
        Assert.Equal(1, answer.Parties.Sum(p => p.Probability), 1e-9);
        Assert.Equal(1, answer.Causes.Where(c => c.Condition == answer.Conditions[0].Condition).Sum(c => c.Probability), 1e-9);
    }, iter: 200);

    [Fact]
    public void Diagnose_order_of_evidence_does_not_matter() => AnyEvidence.Sample(evidence =>
        Assert.Equal(Json(Known.Diagnose(evidence)), Json(Known.Diagnose([.. evidence.Reverse()]))), iter: 60);

    [Fact]
    public void Diagnose_same_input_gives_an_equal_answer()
    {
        PanelFacts facts = PanelCase.All[0].Facts;
        var fresh = new Diagnostician(KnowledgeBase.Load(Known.Folder));
        Assert.Equal(
            Json(Known.Diagnostician.Diagnose(facts, Known.Photo("dulling"))),
            Json(fresh.Diagnose(facts, Known.Photo("dulling"))));
    }

    // In favor: no other condition gains more from it. Context groups are left out: their cap can hold back the one that
    // is already full while another still gains.
    [Fact]
    public void Diagnose_evidence_in_favor_never_lowers_the_share() => Gen.Select(AnyEvidence, Gen.Int[0, Vocabulary.Length - 1]).Sample((evidence, i) =>
    {
        string added = Vocabulary[i];
        string[] more = Valid([.. evidence, added]);
        if (more.Length == evidence.Length || Known.Base.Ranking.GroupCaps.Groups.Contains(Known.Base.Evidence[added].Group))
        {
            return;
        }

        Dictionary<string, double> before = Known.Diagnose(evidence).Conditions.ToDictionary(c => c.Condition, c => c.Probability);
        IReadOnlyList<ConditionShare> after = Known.Diagnose(more).Conditions;
        double most = after.Max(c => WeightOf(c, added));
        Assert.All(
            after.Where(c => WeightOf(c, added) == most),
            c => Assert.True(c.Probability >= before[c.Condition] - 1e-12, $"{added} lowers {c.Condition}"));
    }, iter: 300);

    [Fact]
    public void Diagnose_much_context_is_capped_by_a_listed_item()
    {
        ConditionShare share = Known.Diagnose(
                "environment.kept_outdoors", "environment.hot_sun", "environment.humid", "finish.single_stage_2k",
                "finish.lacquer", "finish.age_over_5_years")
            .Conditions.Single(c => c.Condition == "chalking");
        double finish = share.Evidence.Where(e => e.Id.StartsWith("finish.", StringComparison.Ordinal)).Sum(e => e.WeightLog);
        EvidenceWeight cap = share.Evidence.Single(e => e.Id == "cap.finish");
        Assert.True(finish > Math.Log(8));
        Assert.Equal(Math.Log(8), finish + cap.WeightLog, 1e-12);
    }

    // By hand from the tables: a strong sign of orange peel, unlisted by tar spots; base weight 34.
    [Fact]
    public void Diagnose_one_sign_weighs_as_the_class_factor_says()
    {
        PanelDiagnosis answer = Known.Diagnose("form.wavy_texture");
        Assert.Equal(Math.Log(8), WeightOf(answer.Conditions.Single(c => c.Condition == "orange_peel"), "form.wavy_texture"), 1e-12);
        Assert.Equal(Math.Log(0.5), WeightOf(answer.Conditions.Single(c => c.Condition == "tar_spot"), "form.wavy_texture"), 1e-12);
        Assert.Equal(Math.Log(34), WeightOf(answer.Conditions.Single(c => c.Condition == "orange_peel"), "base"), 1e-12);
    }

    [Fact]
    public void Diagnose_evidence_is_listed_heaviest_first_and_the_base_last() =>
        Assert.All(Known.Diagnostician.Diagnose(PanelCase.All[5].Facts, null).Conditions, c =>
        {
            Assert.Equal("base", c.Evidence[^1].Id);
            double[] weights = [.. c.Evidence.SkipLast(1).Select(e => Math.Abs(e.WeightLog))];
            Assert.Equal(weights.OrderDescending(), weights);
            Assert.All(c.Evidence, e => Assert.NotEmpty(e.Reason));
        });

    [Fact]
    public void Diagnose_second_condition_brings_its_causes_from_a_tenth_on()
    {
        PanelDiagnosis two = Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == "S02").Facts, null);
        Assert.True(two.Conditions[1].Probability >= 0.1);
        Assert.Equal(["bronzing", "chalking"], two.Causes.Select(c => c.Condition).Distinct());
        PanelDiagnosis one = Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == "S01").Facts, null);
        Assert.Equal(["chalking"], one.Causes.Select(c => c.Condition).Distinct());
    }

    // Limits of the rule as our trade notes state it; common practice, no published source.
    [Theory]
    [InlineData(new[] { 100.0, 1001 }, "film.over_1000_um_or_filler")]
    [InlineData(new[] { 60.0, 301 }, "film.over_300_um")]
    [InlineData(new[] { 300.0, 79.9 }, "film.under_80_um")]
    [InlineData(new[] { 100.0, 171, 300 }, "film.170_to_300_um_or_uneven")]
    [InlineData(new[] { 140.0, 200 }, "film.80_to_170_um_even")]
    [InlineData(new[] { 80.0 }, "film.80_to_170_um_even")]
    public void Diagnose_film_readings_become_evidence(double[] um, string expected)
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts { Readings = new() { FilmUm = um } }, null);
        EvidenceItem item = Assert.Single(answer.Evidence);
        Assert.Equal((expected, EvidenceOrigin.Reading), (item.Id, item.Origin));
    }

    [Theory]
    [InlineData(69.9, null, "measured.gloss_60_under_70")]
    [InlineData(70.0, null, null)]
    [InlineData(84.9, null, null)]
    [InlineData(85.0, null, "measured.gloss_60_at_least_85")]
    [InlineData(null, 2.1, "measured.delta_e_over_2")]
    [InlineData(null, 2.0, null)]
    [InlineData(null, 1.0, null)]
    [InlineData(null, 0.9, "measured.delta_e_under_1")]
    public void Diagnose_gloss_and_color_readings_become_evidence(double? gloss, double? difference, string? expected)
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts { Readings = new() { Gloss60 = gloss, DeltaE00 = difference } }, null);
        Assert.Equal(expected is null ? [] : [expected], answer.Evidence.Select(e => e.Id));
    }

    private static string Json(PanelDiagnosis answer) => JsonSerializer.Serialize(answer);

    private static double WeightOf(ConditionShare share, string evidence) =>
        share.Evidence.FirstOrDefault(e => e.Id == evidence)?.WeightLog ?? 0;

    private static void Reproduces(IEnumerable<(double Share, IReadOnlyList<EvidenceWeight> Evidence)> candidates)
    {
        (double Share, double Score)[] all = [.. candidates.Select(c => (c.Share, Math.Exp(c.Evidence.Sum(e => e.WeightLog))))];
        double total = all.Sum(c => c.Score);
        Assert.All(all, c => Assert.Equal(c.Score / total, c.Share, 1e-9));
    }

    private static string[] Valid(IEnumerable<string> evidence)
    {
        var kept = new List<string>();
        foreach (string id in evidence)
        {
            try
            {
                FactsValidator.Validate(new PanelFacts { Evidence = [.. kept, id] }, Known.Base);
                kept.Add(id);
            }
            catch (CoatScanException)
            {
                // A repeat or a second outcome: left out.
            }
        }

        return [.. kept];
    }
}
