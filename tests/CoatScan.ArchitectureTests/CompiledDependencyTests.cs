using System.Text.RegularExpressions;
using ArchUnitNET.Domain;
using ArchUnitNET.Fluent.Syntax.Elements.Types;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using static ArchUnitNET.Fluent.ArchRuleDefinition;
using Assembly = System.Reflection.Assembly;

namespace CoatScan.ArchitectureTests;

public class CompiledDependencyTests
{
    private static readonly IReadOnlyDictionary<string, Assembly> Assemblies = ProjectTable.Rows.ToDictionary(
        row => row.Name,
        row => Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, row.AssemblyName + ".dll")));

    private static readonly Architecture Architecture = new ArchLoader().LoadAssemblies([.. Assemblies.Values]).Build();

    public static TheoryData<string> Projects() => [.. ProjectTable.Rows.Select(row => row.Name)];

    public static TheoryData<string> Families() => [.. ProjectTable.PackageOwners.Keys];

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_uses_only_types_of_projects_that_it_may_know(string name)
    {
        var row = ProjectTable.Find(name)!;
        foreach (var other in ProjectTable.Rows.Where(other => !row.MayKnow(other.Name)))
        {
            RuleNotToKnow(name, other.Name).Check(Architecture);
        }
    }

    [Fact]
    public void Rule_finds_a_project_that_knows_another()
    {
        // Control: the rule would see a forbidden arrow, because it sees the allowed ones.
        Assert.False(RuleNotToKnow("Storage", "Findings").HasNoViolations(Architecture));
        Assert.False(RuleNotToKnow("Imaging", "Metrics").HasNoViolations(Architecture));
        Assert.False(RuleNotToKnow("Cli", "Client").HasNoViolations(Architecture));
        Assert.True(RuleNotToKnow("Findings", "Storage").HasNoViolations(Architecture));
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void Package_is_known_only_by_its_owners(string family)
    {
        foreach (var row in ProjectTable.Rows.Where(row => !ProjectTable.PackageOwners[family].Contains(row.Name)))
        {
            RuleNotToUse(row.Name, family).Check(Architecture);
        }
    }

    [Fact]
    public void Rule_finds_a_project_that_uses_a_package()
    {
        Assert.False(RuleNotToUse("Imaging", "SixLabors.ImageSharp").HasNoViolations(Architecture));
        Assert.False(RuleNotToUse("Classification", "Microsoft.ML").HasNoViolations(Architecture));
        Assert.False(RuleNotToUse("Storage", "Microsoft.EntityFrameworkCore").HasNoViolations(Architecture));
        Assert.False(RuleNotToUse("Client", "Grpc").HasNoViolations(Architecture));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Generated_contract_is_known_only_by_client_service_and_command_line(string name)
    {
        var rule = RuleNotToUse(name, "CoatScan.V1");

        if (name is "Client" or "Service" or "Cli")
        {
            Assert.False(rule.HasNoViolations(Architecture), $"{name} is expected to use the contract.");
        }
        else
        {
            rule.Check(Architecture);
        }
    }

    [Fact]
    public void Findings_and_metrics_use_nothing_but_the_platform()
    {
        foreach (var name in new[] { "Findings", "Metrics" })
        {
            var foreign = Assemblies[name].GetReferencedAssemblies()
                .Select(reference => reference.Name!)
                .Where(reference => !reference.StartsWith("System", StringComparison.Ordinal)
                    && reference is not ("netstandard" or "CoatScan.Findings"));
            Assert.Empty(foreign);
        }
    }

    private static TypesShouldConjunctionWithDescription RuleNotToKnow(string name, string other) => Types()
        .That().ResideInAssembly(Assemblies[name])
        .Should().NotDependOnAny(Types().That().ResideInAssembly(Assemblies[other]))
        .Because($"{name} does not know {other} (ProjectTable)");

    private static TypesShouldConjunctionWithDescription RuleNotToUse(string name, string family) => Types()
        .That().ResideInAssembly(Assemblies[name])
        .Should().NotDependOnAny(
            Types(includeReferenced: true).That().ResideInNamespaceMatching($"^{Regex.Escape(family)}(\\.|$)"))
        .Because($"{family} is not for {name} (ProjectTable)");
}
