namespace CoatScan.ReportsTests;

public sealed class TableTests
{
    [Fact]
    public void Row_reads_back_as_it_was_written()
    {
        var finding = Samples.Full() with { Panel = "left \"front\" door, upper", ExternalRef = "line one\r\nline two; x" };
        string csv = FindingTable.Head() + FindingTable.Row(new("door.jpg", finding)) + FindingTable.Row(new("bad.jpg", null, "It ends, too early."));

        var rows = Parse(csv);

        Assert.Equal(3, rows.Count);
        Assert.Equal(FindingTable.ColumnNames, rows[0]);
        Assert.All(rows, row => Assert.Equal(rows[0].Count, row.Count));
        string Cell(int row, string name) => rows[row][rows[0].IndexOf(name)];
        Assert.Equal("door.jpg", Cell(1, "name"));
        Assert.Equal(finding.Panel, Cell(1, "panel"));
        Assert.Equal(finding.ExternalRef, Cell(1, "external_ref"));
        Assert.Equal("2026-05-02T09:30:00Z", Cell(1, "create_time"));
        Assert.Equal("PROVISIONAL", Cell(1, "verdict"));
        Assert.Equal("blistering", Cell(1, "condition"));
        Assert.Equal("0.71", Cell(1, "condition_share"));
        Assert.Equal("flake_to_metal", Cell(1, "second_condition"));
        Assert.Equal("water", Cell(1, "cause"));
        Assert.Equal("applicator", Cell(1, "party"));
        Assert.Equal("ISO 4628-2: 3(S4)", Cell(1, "ratings"));
        Assert.Equal(("WASH", "PANEL_PAINT"), (Cell(1, "lightest_work"), Cell(1, "heaviest_work")));
        Assert.Equal(("0.5", "10"), (Cell(1, "hours_low"), Cell(1, "hours_high")));
        Assert.Equal("NO_SCALE; BLURRED", Cell(1, "photo_issues"));
        Assert.Equal("DOES_NOT_FIT", Cell(1, "dates"));
        Assert.Equal("", Cell(1, "failure"));
        Assert.Equal("It ends, too early.", Cell(2, "failure"));
        Assert.Equal(["bad.jpg", "It ends, too early."], rows[2].Where(cell => cell.Length > 0));
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@SUM(A1)")]
    [InlineData("\t=1")]
    [InlineData(" =1")]
    [InlineData("\uFF1D1")]
    public void Row_never_begins_a_cell_like_a_formula(string hostile)
    {
        var rows = Parse(FindingTable.Row(new(hostile, Samples.Full() with { Panel = hostile })));

        Assert.Equal(["'" + hostile, "'" + hostile], rows[0].Take(2));
    }

    [Fact]
    public void Row_has_no_value_for_what_is_absent()
    {
        var rows = Parse(FindingTable.Row(new("case", Samples.Bare())));

        string Cell(string name) => rows[0][FindingTable.ColumnNames.ToList().IndexOf(name)];
        Assert.All(
            new[] { "second_share", "cause_share", "party", "party_share", "party_verdict", "ratings", "hours_low", "lightest_work", "next_test", "photo_sha256" },
            name => Assert.Equal("", Cell(name)));
    }

    [Fact]
    public void Columns_keep_their_names_and_order() => Assert.Equal(
        "name,panel,external_ref,finding,create_time,verdict,condition,condition_name,condition_share,second_condition,second_share,beside,cause,"
        + "cause_share,party,party_share,party_verdict,timing,dates,ratings,first_step,lightest_work,heaviest_work,hours_low,hours_high,must_not,"
        + "next_test,photo_issues,photo_sha256,service_version,model_version,knowledge_version,metric_set_version,failure\r\n",
        FindingTable.Head());

    // RFC 4180, written from its grammar.
    private static List<List<string>> Parse(string csv)
    {
        var rows = new List<List<string>>();
        List<string> row = [];
        var at = 0;
        while (at < csv.Length)
        {
            var cell = new System.Text.StringBuilder();
            if (csv[at] == '"')
            {
                for (at++; csv[at] != '"' || (at + 1 < csv.Length && csv[at + 1] == '"'); at++)
                {
                    at += csv[at] == '"' ? 1 : 0;
                    cell.Append(csv[at]);
                }

                at++;
            }
            else
            {
                for (; csv[at] is not (',' or '\r'); at++)
                {
                    Assert.NotEqual('"', csv[at]);
                    cell.Append(csv[at]);
                }
            }

            row.Add(cell.ToString());
            if (csv[at] == ',')
            {
                at++;
                continue;
            }

            Assert.Equal("\r\n", csv.Substring(at, 2));
            at += 2;
            rows.Add(row);
            row = [];
        }

        return rows;
    }
}
