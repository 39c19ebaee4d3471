using CoatScan.Cli;
using CoatScan.Cli.Input;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class EvidenceListTests
{
    [Fact]
    public void Read_ids_separated_by_commas_come_in_order_without_repeats() =>
        Assert.Equal(["form.rings", "relief.sunk"], EvidenceList.Read("form.rings, relief.sunk,form.rings"));

    [Fact]
    public void Read_file_takes_lines_commas_blanks_and_comments()
    {
        using var folder = new TempFolder();
        var path = folder.Write("facts.txt", "# seen\nform.rings\nrelief.sunk, size.1_to_5_mm\tgloss.low # dull\r\n\n");

        Assert.Equal(["form.rings", "relief.sunk", "size.1_to_5_mm", "gloss.low"], EvidenceList.Read(path));
    }

    [Fact]
    public void Read_file_that_is_no_list_names_the_odd_word()
    {
        using var folder = new TempFolder();
        var path = folder.Write("facts.txt", "form.rings\nRings!\n");

        var complaint = Assert.Throws<CommandException>(() => EvidenceList.Read(path));
        Assert.Contains("'Rings!'", complaint.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_photo_by_mistake_is_refused_by_size()
    {
        using var folder = new TempFolder();
        var path = folder.Write("hood.jpg", new byte[(1024 * 1024) + 1]);

        Assert.Contains("1 MiB", Assert.Throws<CommandException>(() => EvidenceList.Read(path)).Message, StringComparison.Ordinal);
    }
}
