using System.CommandLine;
using CoatScan.Cli.Sheets;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--sheets</c>.</summary>
internal static class SheetsOption
{
    /// <summary>Creates the option; its value is null when it is not given.</summary>
    public static Option<IReadOnlyList<SheetKind>?> Create() => Create(
        "Which sheets to write into the folder of --out, separated by commas: finding (default), customer (a note for the owner "
        + "with a care card), job-card (the steps with their waits), vehicle (all photos as panels of one vehicle).");

    /// <summary>Creates the option for a batch, which knows its vehicles.</summary>
    public static Option<IReadOnlyList<SheetKind>?> CreateForBatch() => Create(
        "Which sheets to write into the folder of --out, separated by commas: vehicle (default, one a vehicle with all its panels), "
        + "finding, customer (a note for the owner with a care card) and job-card (the steps with their waits), one a panel.");

    private static Option<IReadOnlyList<SheetKind>?> Create(string description) => new("--sheets")
    {
        Description = description,
        HelpName = "finding,customer,job-card,vehicle",
        CustomParser = result =>
        {
            var kinds = new List<SheetKind>();
            foreach (var word in result.Tokens[0].Value.Split(','))
            {
                SheetKind? kind = word.Trim() switch
                {
                    "finding" => SheetKind.Finding,
                    "customer" => SheetKind.Customer,
                    "job-card" => SheetKind.JobCard,
                    "vehicle" => SheetKind.Vehicle,
                    _ => null,
                };
                if (kind is null)
                {
                    result.AddError($"--sheets takes finding, customer, job-card and vehicle, separated by commas, not '{word}'.");
                    return null;
                }

                kinds.Add(kind.Value);
            }

            return kinds;
        },
    };
}
