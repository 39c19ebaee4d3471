using System.Text.Json;
using System.Text.Json.Serialization;
using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

/// <summary>One invented case; see TestData/cases/SOURCE.md.</summary>
internal sealed record PanelCase
{
    private static readonly JsonSerializerOptions Options = new() { PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower };

    [JsonPropertyName("case")]
    public required string Id { get; init; }

    public string[] Signs { get; init; } = [];

    public string[] Finish { get; init; } = [];

    public string[] Environment { get; init; } = [];

    public string[] Care { get; init; } = [];

    public string[] Spraying { get; init; } = [];

    public string[] Event { get; init; } = [];

    public string[] Tests { get; init; } = [];

    public required CaseReadings Measurements { get; init; }

    public required Expectation Expect { get; init; }

    public static IReadOnlyList<PanelCase> All { get; } =
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "TestData", "cases", "panel-cases.jsonl"))
            .Select(line => JsonSerializer.Deserialize<PanelCase>(line, Options)!),
    ];

    public PanelFacts Facts => new()
    {
        Evidence = [.. Signs, .. Finish, .. Environment, .. Care, .. Spraying, .. Event, .. Tests],
        Readings = new()
        {
            FilmUm = Measurements.FilmUm,
            Gloss60 = Measurements.Gloss60,
            DeltaE00 = Measurements.De00,
        },
    };

    internal sealed record CaseReadings
    {
        public double[] FilmUm { get; init; } = [];

        [JsonPropertyName("gloss60")]
        public double? Gloss60 { get; init; }

        [JsonPropertyName("de00")]
        public double? De00 { get; init; }
    }

    internal sealed record Expectation
    {
        public required string ConditionStatus { get; init; }

        public string? TopCondition { get; init; }

        public string[] AlsoAcceptableOrCandidates { get; init; } = [];

        public required string CauseStatus { get; init; }

        public string[] TopCauses { get; init; } = [];

        public string? Party { get; init; }

        public required string FirstRemedyStep { get; init; }

        public string[] MustNotNow { get; init; } = [];

        public string[] MustNotEver { get; init; } = [];

        public string[] AskTests { get; init; } = [];
    }
}
