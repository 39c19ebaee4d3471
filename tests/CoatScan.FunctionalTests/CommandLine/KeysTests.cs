using CoatScan.Client;
using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Data.Sqlite;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>keys</c> and <c>audit</c> on the folder of a running service, and <c>--key-file</c> against it.</summary>
public sealed class KeysTests : IDisposable
{
    private readonly TempFolder _temp = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Key_made_for_a_running_service_opens_it_until_it_is_revoked()
    {
        await using var server = await KeyedServer.StartAsync();
        var address = server.GrpcAddress.ToString();

        var made = await CommandLineRun.Of(
            "keys", "create", "--tenant", "north", "--scope", "read", "--name", "office", "--days", "90", "--data", server.Folder);
        var file = _temp.Write("key", made.Out);
        var with = await CommandLineRun.Of("evidence", "form", "--server", address, "--key-file", file);
        var without = await CommandLineRun.Of("evidence", "form", "--server", address);
        var id = made.Out.Split('_')[1];
        var list = await CommandLineRun.Of("keys", "list", "--data", server.Folder);
        var revoked = await CommandLineRun.Of("keys", "revoke", id, "--data", server.Folder);
        var after = await CommandLineRun.Of("evidence", "form", "--server", address, "--key-file", file);

        Assert.Equal(0, made.Code);
        Assert.Matches("^coatscan_[a-z2-9]{12}_[A-Za-z0-9_-]{43}\n$", made.Out);
        Assert.Matches($"^Key {id} of north, scope read, until [0-9-]{{10}} [0-9:]{{5}}Z. It is shown only now; ", made.Error);
        Assert.Equal((0, ""), (with.Code, with.Error));
        Assert.Equal(3, without.Code);
        Assert.Contains("refuses: This call needs a credential", without.Error, StringComparison.Ordinal);
        Assert.Contains("--key-file", without.Error, StringComparison.Ordinal);
        Assert.Matches($"{id} +north +read +[0-9-]{{10}} +holds until", list.Out);
        Assert.Contains("office", list.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(made.Out.Trim(), list.Out, StringComparison.Ordinal);
        Assert.StartsWith($"Revoked: Key {id} of north", revoked.Out, StringComparison.Ordinal);
        Assert.Equal(3, after.Code);
        Assert.Contains("ended or was revoked", after.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rotated_key_and_its_successor_hold_side_by_side()
    {
        await using var server = await KeyedServer.StartAsync();
        var old = await CommandLineRun.Of("keys", "create", "--tenant", "north", "--scope", "admin", "--data", server.Folder);
        var id = old.Out.Split('_')[1];

        var fresh = await CommandLineRun.Of("keys", "rotate", id, "--overlap-hours", "1", "--data", server.Folder);
        var list = await CommandLineRun.Of("keys", "list", "--tenant", "north", "--data", server.Folder);

        Assert.Equal(0, fresh.Code);
        foreach (var key in new[] { old, fresh })
        {
            using var caller = server.As(key.Out.Trim());
            Assert.Empty((await caller.Findings.ListFindingsAsync(new())).Findings);
        }

        Assert.Matches($"{id} +north +admin +[0-9-]{{10}} +holds until", list.Out);
        Assert.Matches($"{fresh.Out.Split('_')[1]} +north +admin +[0-9-]{{10}} +holds *\n", list.Out);
    }

    [Fact]
    public async Task Keys_of_a_folder_without_a_store_can_be_made_before_the_first_start()
    {
        var data = Path.Combine(_temp.Path, "data");

        var empty = await CommandLineRun.Of("keys", "list", "--data", data);
        var made = await CommandLineRun.Of("keys", "create", "--tenant", "north", "--scope", "read", "--data", data);

        Assert.Equal((0, "There are no keys.\n"), (empty.Code, empty.Out));
        Assert.Equal(0, made.Code);
    }

    [Theory]
    [InlineData("There is no key nobody.", "revoke", "nobody")]
    [InlineData("There is no key nobody.", "rotate", "nobody")]
    public async Task Unknown_key_is_1_with_one_sentence(string complaint, params string[] args)
    {
        var run = await CommandLineRun.Of(["keys", .. args, "--data", _temp.Path]);

        Assert.Equal((1, "", complaint + "\n"), (run.Code, run.Out, run.Error));
    }

    [Theory]
    [InlineData("--scope takes read, write or admin, not 'all'", "create", "--tenant", "north", "--scope", "all")]
    [InlineData("--tenant takes 1 to 63 letters", "create", "--tenant", "a/b", "--scope", "read")]
    [InlineData("'--tenant'", "create", "--scope", "read")]
    [InlineData("--days takes a whole number from 1 to 36500, not '0'", "create", "--tenant", "n", "--scope", "read", "--days", "0")]
    [InlineData("--overlap-hours takes a whole number from 0 to 2160, not '-1'", "rotate", "x", "--overlap-hours", "-1")]
    public async Task Wrong_command_line_is_2_with_one_complaint(string complaint, params string[] args)
    {
        var run = await CommandLineRun.Of(["keys", .. args, "--data", _temp.Path]);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Key_file_that_is_none_is_2()
    {
        var two = _temp.Write("two", "one key\nanother key\n");

        var noServer = await CommandLineRun.Of("evidence", "--key-file", two);
        var notOne = await CommandLineRun.Of("evidence", "--server", "http://127.0.0.1:1", "--key-file", two);
        var missing = await CommandLineRun.Of("evidence", "--server", "http://127.0.0.1:1", "--key-file", two + "x");
        var inClear = await CommandLineRun.Of("evidence", "--server", "http://192.0.2.7:8081", "--key-file", _temp.Write("key", "k"));

        Assert.Equal([2, 2, 2, 2], [noServer.Code, notOne.Code, missing.Code, inClear.Code]);
        Assert.Contains("name it with --server", noServer.Error, StringComparison.Ordinal);
        Assert.Contains("one API key or token and nothing else", notOne.Error, StringComparison.Ordinal);
        Assert.Contains("cannot be read", missing.Error, StringComparison.Ordinal);
        Assert.Contains("over https only", inClear.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://192.0.2.7:8081", false)]
    [InlineData("http://127.0.0.1:8081", true)]
    [InlineData("http://localhost:8081", true)]
    [InlineData("https://192.0.2.7:8081", true)]
    public void ForAddress_sends_a_credential_in_clear_text_to_this_machine_only(string address, bool taken)
    {
        void Open() => CoatScanChannel.ForAddress(new Uri(address), "secret").Dispose();

        if (taken)
        {
            Open();
        }
        else
        {
            Assert.DoesNotContain("secret", Assert.Throws<ArgumentException>(Open).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Audit_verify_says_that_the_log_is_whole_or_names_the_first_broken_entry()
    {
        await using var server = await RunningServer.StartAsync();
        for (var i = 0; i < 3; i++)
        {
            await server.Findings.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } });
        }

        var whole = await CommandLineRun.Of("audit", "verify", "--data", server.Folder);
        await using (var connection = new SqliteConnection($"Data Source={server.DatabasePath};Pooling=false"))
        {
            await connection.OpenAsync(Token);
            await using var tamper = connection.CreateCommand();
            tamper.CommandText = "DROP TRIGGER audit_entries_no_update; UPDATE audit_entries SET tenant = 'other' WHERE sequence = 2";
            await tamper.ExecuteNonQueryAsync(Token);
        }

        var broken = await CommandLineRun.Of("audit", "verify", "--data", server.Folder);
        var none = await CommandLineRun.Of("audit", "verify", "--data", _temp.Path);

        Assert.Equal(0, whole.Code);
        Assert.Matches("^Whole: 3 entries, last hash [0-9a-f]{64}.\n$", whole.Out);
        Assert.Equal((1, ""), (broken.Code, broken.Out));
        Assert.StartsWith("Entry 2 does not fit the one before it", broken.Error, StringComparison.Ordinal);
        Assert.EndsWith("The first 1 entries are whole.\n", broken.Error, StringComparison.Ordinal);
        Assert.Equal((1, $"There is no store {Path.Combine(_temp.Path, "coatscan.db")}.\n"), (none.Code, none.Error));
    }
}
