using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class KnowledgeBaseTests
{
    [Fact]
    public void Load_shipped_folder_has_the_whole_catalog()
    {
        Assert.Equal(44, Known.Base.Conditions.Count);
        Assert.Equal(176, Known.Base.Conditions.Sum(c => c.Causes.Count));
        Assert.Equal(206, Known.Base.Evidence.Count);
        Assert.Equal(33, Known.Base.Deciders.Count);
        Assert.Equal(19, Known.Base.Contradictions.Count);
        Assert.Equal(27, Known.Base.Operations.Count);
        Assert.Equal(8, Known.Base.Parties.Count);
        Assert.Equal(25, Known.Base.VisualClasses.Count);
        Assert.Matches(@"^\d{4}\.\d{2}\.\d+$", Known.Base.Version);
    }

    [Fact]
    public void Load_shipped_folder_uses_every_source_it_lists()
    {
        IEnumerable<string> used = Known.Base.Conditions.SelectMany(c => c.Sources)
            .Concat(Known.Base.Cautions.SelectMany(c => c.Sources))
            .Concat(Known.Base.Care.Sources)
            .Concat(Known.Base.SprayDay.Sources);
        Assert.Empty(Known.Base.Sources.Keys.Except(used));
    }

    [Fact]
    public void Load_shipped_folder_has_evidence_that_somebody_uses()
    {
        IEnumerable<string> used = Known.Base.Conditions
            .SelectMany(c => c.Signs.Values.Concat(c.Causes.SelectMany(k => k.Evidence.Values)))
            .SelectMany(ids => ids)
            .Concat(Known.Base.Finishes.Select(f => f.Evidence))
            .Concat(Known.Base.HandOvers.SelectMany(h => h.Evidence ?? []))
            .Concat(Known.Base.Contradictions.SelectMany(c => new[] { c.First, c.Second }))

            // Stated so that nothing has to be assumed; they change nothing.
            .Concat(["substrate.steel", "substrate.zinc_coated_steel"]);
        Assert.Empty(Known.Base.Evidence.Keys.Except(used));
    }

    [Fact]
    public void Load_shipped_folder_uses_every_operation_and_party()
    {
        Assert.Empty(Known.Base.Parties.Keys.Except(Known.Base.Conditions.SelectMany(c => c.Causes).Select(c => c.Party)));
        Assert.Empty(Known.Base.Operations.Keys.Except(Known.Base.Conditions.SelectMany(c =>
            c.Ladder.Select(s => s.Operation).Concat(c.MustNot.Select(m => m.Operation)))));
    }

    [Fact]
    public void Load_shipped_folder_has_ladders_that_start_without_spending_film() =>
        Assert.All(Known.Base.Conditions, c => Assert.False(Known.Base.Operations[c.Ladder[0].Operation].SpendsFilm));

    [Fact]
    public void ChanceToSee_every_condition_sums_to_one_over_the_panel_classes()
    {
        string[] panel = [.. Known.Base.VisualClasses.Values.Where(c => c.Panel).Select(c => c.Id)];
        Assert.Equal(24, panel.Length);
        Assert.All(Known.Base.Conditions, c =>
        {
            Assert.Equal(1, panel.Sum(v => Known.Base.ChanceToSee(v, c.Id)), 1e-12);
            Assert.All(panel, v => Assert.InRange(Known.Base.ChanceToSee(v, c.Id), 1e-4, 1));
        });
    }

    [Fact]
    public void ChanceToSee_not_a_panel_is_no_answer() =>
        Assert.Throws<KeyNotFoundException>(() => Known.Base.ChanceToSee("not_a_panel", "chip"));

    [Fact]
    public void Condition_unknown_id_suggests_the_nearest()
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() => Known.Base.Condition("orange_pel"));
        Assert.Equal(ErrorReason.ConditionNotFound, e.Reason);
        Assert.Contains("'orange_peel'", e.Message, StringComparison.Ordinal);
    }

    // A cause that nothing could bring to the front would be dead knowledge.
    [Fact]
    public void Diagnose_every_cause_can_lead_by_what_it_lists()
    {
        var unreachable = new List<string>();
        foreach (ConditionEntry condition in Known.Base.Conditions.Where(c => c.Id != "sound"))
        {
            foreach (CauseEntry cause in condition.Causes)
            {
                if (!Ways(condition, cause).Any(evidence => Leads(condition, cause, evidence)))
                {
                    unreachable.Add($"{condition.Id}.{cause.Id}");
                }
            }
        }

        Assert.True(unreachable.Count == 0, string.Join("\n", unreachable));
    }

    [Fact]
    public void Load_missing_folder_says_which_file()
    {
        InvalidDataException e = Assert.Throws<InvalidDataException>(() =>
            KnowledgeBase.Load(Path.Combine(Path.GetTempPath(), "no-such-knowledge")));
        Assert.Contains("manifest.yaml", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("manifest.yaml", "version: \"2026", "versio: \"2026", "manifest.yaml")]
    [InlineData("manifest.yaml", "version:", "version: [", "not valid YAML")]
    [InlineData("manifest.yaml", "status:", "version: \"2026.11.1\"\nstatus:", "stands twice")]
    [InlineData("manifest.yaml", "status: trade", "status: &a trade", "anchors")]
    [InlineData("ranking.yaml", "strong_for: 8.0", "strong_for: 0", "/likelihood_classes/strong_for")]
    [InlineData("ranking.yaml", "low: 0.05", "low: 2", "group caps")]
    [InlineData("evidence.yaml", "group: form", "group: shape", "evidence.yaml breaks its schema")]
    [InlineData("tests.yaml", "test.wash.removes", "test.wash.remove", "Did you mean 'test.wash.removes'?")]
    [InlineData("deciders.yaml", "first: mineral_deposit", "first: mineral", "deciders.yaml")]
    [InlineData("contradictions.yaml", "first: finish.factory", "first: finish.factry", "contradictions.yaml")]
    [InlineData("timing.yaml", "history.sudden: the", "history.sudenly: the", "timing.yaml")]
    [InlineData("cautions.yaml", "operations: [mild_acid", "operations: [mild_acids", "cautions.yaml")]
    [InlineData("film.yaml", "forbids: [wet_sand]", "forbids: [wet_sanding]", "film.yaml, budget")]
    [InlineData("film.yaml", "up_to_um: 100", "up_to_um: 130", "must rise")]
    [InlineData("finishes.yaml", "evidence: finish.matte", "evidence: finish.mat", "finishes.yaml")]
    [InlineData("waits.yaml", "better_days: 21", "better_days: 1", "better comes before")]
    [InlineData("claim.yaml", "sources: [common-practice]", "sources: [practice]", "claim.yaml")]
    [InlineData("handovers.yaml", "conditions: [rust_underfilm", "conditions: [rust", "handovers.yaml, structure")]
    [InlineData("ranking.yaml", "parties: { third_party: moderate_for }", "parties: { stranger: moderate_for }", "cause_hints")]
    [InlineData("ranking.yaml", "families: [mechanical]", "families: [mechanics]", "no condition is of the family 'mechanics'")]
    [InlineData("care.yaml", "sources: [common-practice]", "sources: [practice]", "care.yaml")]
    [InlineData("visual-classes.yaml", "  chip: {", "  chips: {", "visual-classes.yaml")]
    [InlineData("visual-classes.yaml", "chips: 0.86, rust", "chips: 0.98, rust", "leaves nothing")]
    [InlineData("visual-classes.yaml", "chips: 0.86, rust", "not_a_panel: 0.88, rust", "not seen on a panel")]
    [InlineData("conditions/chip.yaml", "id: chip", "id: chipped", "calls itself 'chipped'")]
    [InlineData("conditions/chip.yaml", "party: impact_road", "party: road", "cause road_stone")]
    [InlineData("conditions/chip.yaml", "operation: wash", "operation: compound", "spends film")]
    [InlineData("conditions/chip.yaml", "operation: touch_up", "operation: machine_polish", "forbidden always")]
    [InlineData("conditions/chip.yaml", "claim_class: event_or_accumulated", "claim_class: gradually", "/claim_class")]
    [InlineData("conditions/chip.yaml", "base_weight: 22", "base_weight: many", "/base_weight")]
    public void Load_broken_file_says_in_one_sentence_what_is_wrong(string file, string from, string to, string expected)
    {
        using var copy = new KnowledgeCopy();
        copy.Edit(file, from, to);
        InvalidDataException e = Assert.Throws<InvalidDataException>(() => KnowledgeBase.Load(copy.Folder));
        Assert.Contains(expected, e.Message, StringComparison.Ordinal);
        Assert.Contains(file, e.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', e.Message);
    }

    // Everything it lists, or only what no other cause lists; with the strong, the clear, the seen or all signs.
    private static IEnumerable<string[]> Ways(ConditionEntry condition, CauseEntry cause)
    {
        string[] own = [.. For(cause.Evidence)];
        string[] others = [.. condition.Causes.Where(c => c != cause).SelectMany(c => For(c.Evidence))];
        string[] strong = [.. condition.Signs.GetValueOrDefault(LikelihoodClass.StrongFor, [])];
        string[] seen = [.. For(condition.Signs).Where(id => Known.Base.Evidence[id].Group is "form" or "relief" or "size" or "color" or "gloss" or "test")];
        string[] clear = [.. strong, .. condition.Signs.GetValueOrDefault(LikelihoodClass.ModerateFor, [])];
        return from listed in new[] { own, [.. own.Except(others)] }
               from signs in new[] { strong, clear, seen, [.. For(condition.Signs)] }
               select Valid([.. listed, .. signs.Except(others)]);
    }

    private static bool Leads(ConditionEntry condition, CauseEntry cause, string[] evidence)
    {
        PanelDiagnosis answer = Known.Diagnose(evidence);
        return answer.Conditions[0].Condition == condition.Id && answer.Causes[0].Cause == cause.Id;
    }

    private static IEnumerable<string> For(IReadOnlyDictionary<LikelihoodClass, IReadOnlyList<string>> byClass) =>
        byClass
            .Where(p => p.Key is LikelihoodClass.StrongFor or LikelihoodClass.ModerateFor or LikelihoodClass.WeakFor)
            .SelectMany(p => p.Value);

    private static string[] Valid(IEnumerable<string> ids)
    {
        var trials = new HashSet<string>();
        return [.. ids.Distinct().Where(id => Known.Base.Evidence[id].Group is not ("test" or "film" or "measured") || trials.Add(Trial(id)))];
    }

    private static string Trial(string id) =>
        Known.Base.Tests.Values.FirstOrDefault(t => t.Outcomes.Contains(id))?.Id ?? id[..id.LastIndexOf('.')];
}
