using System.Xml.Linq;

namespace CoatScan.ArchitectureTests;

public class ProjectFileTests
{
    private static readonly string[] ProjectFiles =
        [.. Repository.Files().Where(file => file.EndsWith(".csproj", StringComparison.Ordinal))];

    public static TheoryData<string> SourceProjects() =>
        [.. ProjectFiles.Where(file => file.StartsWith("src/", StringComparison.Ordinal)).Select(NameOf)];

    [Fact]
    public void Project_files_are_found() =>
        Assert.True(ProjectFiles.Length > ProjectTable.Rows.Count, $"{ProjectFiles.Length} project files");

    [Theory]
    [MemberData(nameof(SourceProjects))]
    public void Source_project_has_a_row_and_references_only_what_it_may(string name)
    {
        var row = ProjectTable.Find(name);
        Assert.True(row is not null, $"CoatScan.{name} has no row in ProjectTable: say what it may reference.");

        Assert.Empty(ReferencesOf($"src/CoatScan.{name}/CoatScan.{name}.csproj").Except(row.References));
    }

    [Fact]
    public void Table_has_no_row_without_a_project() =>
        Assert.Equal(ProjectTable.Rows.Select(row => row.Name).Order(), SourceProjects().Select(row => row.Data).Order());

    [Fact]
    public void Table_has_no_cycle()
    {
        var seen = new HashSet<string>();
        foreach (var row in ProjectTable.Rows)
        {
            // Each row stands below all that it may know: an order exists, so there is no way back. That project files
            // and compiled types keep to their rows is tested beside.
            Assert.Empty(row.References.Concat(row.AlsoKnows).Except(seen));
            seen.Add(row.Name);
        }
    }

    [Fact]
    public void Project_under_tests_is_referenced_by_nobody_and_named_as_such()
    {
        foreach (var file in ProjectFiles.Where(file => file.StartsWith("tests/", StringComparison.Ordinal)))
        {
            Assert.Matches("(Tests|Benchmarks)$", NameOf(file));
        }

        Assert.Empty(ProjectFiles.SelectMany(ReferencesOf).Except(ProjectTable.Rows.Select(row => row.Name)));
    }

    [Fact]
    public void Project_files_lie_where_their_name_says()
    {
        foreach (var file in ProjectFiles)
        {
            Assert.Matches("^(src|tests)/CoatScan\\.[A-Za-z]+/CoatScan\\.[A-Za-z]+\\.csproj$", file);
            Assert.Equal(file.Split('/')[1] + ".csproj", file.Split('/')[2]);
        }
    }

    [Fact]
    public void Package_reference_stands_only_where_its_owner_is()
    {
        foreach (var file in ProjectFiles.Where(file => file.StartsWith("src/", StringComparison.Ordinal)))
        {
            foreach (var package in PackagesOf(file))
            {
                foreach (var (family, owners) in ProjectTable.PackageOwners)
                {
                    Assert.True(
                        !IsOf(family, package) || owners.Contains(NameOf(file)),
                        $"{file} references {package}, which only {string.Join(", ", owners)} may know.");
                }
            }
        }
    }

    [Theory]
    [InlineData("Findings")]
    [InlineData("Metrics")]
    public void Lowest_projects_reference_no_package(string name) =>
        Assert.Empty(PackagesOf($"src/CoatScan.{name}/CoatScan.{name}.csproj"));

    [Fact]
    public void Versions_of_packages_stand_in_the_central_file_only()
    {
        foreach (var file in ProjectFiles)
        {
            var versioned = Load(file).Descendants("PackageReference").Where(package =>
                package.Attribute("Version") is not null
                || package.Attribute("VersionOverride") is not null
                || package.Element("Version") is not null
                || package.Element("VersionOverride") is not null);
            Assert.Empty(versioned);
        }
    }

    [Fact]
    public void Every_project_is_in_the_solution_and_has_its_lock_file()
    {
        var solution = File.ReadAllText(Repository.FullPath("CoatScan.sln")).Replace('\\', '/');
        foreach (var file in ProjectFiles)
        {
            Assert.Contains($"\"{file}\"", solution, StringComparison.Ordinal);
            Assert.True(File.Exists(Path.Combine(Path.GetDirectoryName(Repository.FullPath(file))!, "packages.lock.json")), file);
        }
    }

    internal static bool IsOf(string family, string name) =>
        name == family || name.StartsWith(family + ".", StringComparison.Ordinal);

    private static string NameOf(string file) => Path.GetFileNameWithoutExtension(file)["CoatScan.".Length..];

    private static XDocument Load(string file) => XDocument.Load(Repository.FullPath(file));

    private static IEnumerable<string> ReferencesOf(string file) => Load(file)
        .Descendants("ProjectReference")
        .Select(reference => NameOf(reference.Attribute("Include")!.Value.Replace('\\', '/')));

    private static IEnumerable<string> PackagesOf(string file) => Load(file)
        .Descendants("PackageReference")
        .Select(reference => reference.Attribute("Include")!.Value);
}
