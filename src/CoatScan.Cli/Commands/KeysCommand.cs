using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Text;
using CoatScan.Findings;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan keys</c>: makes, lists, rotates and revokes API keys in the data folder of a service.</summary>
internal sealed class KeysCommand
{
    private const int MostNameLetters = 255;
    private const int MostDays = 36_500;
    private const int MostOverlapHours = 24 * 90;
    private const int UsualOverlapHours = 24;

    private readonly Session _session;
    private readonly Option<string?> _data = DataOption.Create();

    private readonly Option<string?> _tenant = new("--tenant")
    {
        Description = "Whose data: 1 to 63 letters, digits, '-' or '_'. 'local' is the data of a service with access off.",
        HelpName = "id",
    };

    private readonly Option<AccessScope?> _scope = new("--scope")
    {
        Description = "read (get, list, watch), write (also upload, analyze, grade batches) or admin (also delete).",
        HelpName = "read|write|admin",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            if (word is "read" or "write" or "admin")
            {
                return Enum.Parse<AccessScope>(word, ignoreCase: true);
            }

            result.AddError($"--scope takes read, write or admin, not '{word}'.");
            return null;
        },
    };

    private readonly Option<string?> _name = new("--name")
    {
        Description = "Name for people, for example of the program that will use the key.",
        HelpName = "text",
    };

    private readonly Option<int?> _days = NumberOption.Whole("--days", "Days that the key holds; without an end when not given.", 1, MostDays);

    private readonly Option<int?> _overlapHours = NumberOption.Whole(
        "--overlap-hours", $"Hours that the old key holds on ({UsualOverlapHours} when not given).", 0, MostOverlapHours);

    private readonly Argument<string> _id = new("id") { Description = "Public part of the key, as 'coatscan keys list' shows it." };

    private KeysCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session) => new("keys", "Makes, lists, rotates and revokes API keys; the service may run meanwhile.")
    {
        new KeysCommand(session).CreateCommand(),
        new KeysCommand(session).ListCommand(),
        new KeysCommand(session).RotateCommand(),
        new KeysCommand(session).RevokeCommand(),
    };

    private Command CreateCommand()
    {
        _tenant.Required = true;
        _scope.Required = true;
        var command = new Command("create", "Makes a key and prints it, this once: the store keeps its hash only.")
        {
            _tenant, _scope, _name, _days, _data,
        };
        command.SetAction((parsed, token) => WithKeysAsync(
            parsed,
            async keys =>
            {
                var (key, text) = await keys.CreateAsync(
                    TenantOf(parsed)!.Value, parsed.GetValue(_scope)!.Value, NameOf(parsed), LifetimeOf(parsed), token);
                return await ShowAsync(key, text, LanguageOption.Reader(parsed));
            },
            token));
        return command;
    }

    private Command ListCommand()
    {
        var command = new Command("list", "Lists keys, also those that do not hold any more.") { _tenant, _data };
        command.SetAction((parsed, token) => WithKeysAsync(
            parsed,
            async keys =>
            {
                var page = new TextPage(_session.Terminal.WidthColumns, _session.Terminal.ColorOutput, LanguageOption.Of(parsed));
                KeyText.Write(page, await keys.ListAsync(TenantOf(parsed), token), _session.Terminal.WidthColumns);
                await _session.Out.WriteAsync(page.ToString());
                return ExitCode.Done;
            },
            token));
        return command;
    }

    private Command RotateCommand()
    {
        var command = new Command("rotate", "Makes a key like another one, which holds on for a while.")
        {
            _id, _overlapHours, _days, _data,
        };
        command.SetAction((parsed, token) => WithKeysAsync(
            parsed,
            async keys =>
            {
                var overlap = TimeSpan.FromHours(parsed.GetValue(_overlapHours) ?? UsualOverlapHours);
                var (key, text) = await keys.RotateAsync(parsed.GetValue(_id)!, overlap, LifetimeOf(parsed), token);
                return await ShowAsync(key, text, LanguageOption.Reader(parsed));
            },
            token));
        return command;
    }

    private Command RevokeCommand()
    {
        var command = new Command("revoke", "Ends a key at once.") { _id, _data };
        command.SetAction((parsed, token) => WithKeysAsync(
            parsed,
            async keys =>
            {
                var key = await keys.RevokeAsync(parsed.GetValue(_id)!, token);
                var words = LanguageOption.Reader(parsed);
                await _session.Out.WriteLineAsync(words.Fill("Revoked: {0}.", KeyText.Of(key, words)));
                return ExitCode.Done;
            },
            token));
        return command;
    }

    private async Task<int> WithKeysAsync(ParseResult parsed, Func<StoreKeys, Task<int>> work, CancellationToken cancellationToken)
    {
        try
        {
            using var keys = await StoreKeys.OpenAsync(
                UserFolder.Choose(parsed.GetValue(_data)), TimeProvider.System, cancellationToken);
            return await work(keys);
        }
        catch (CoatScanException refusal)
        {
            throw CommandException.Failed(refusal.Message);
        }
    }

    private Tenant? TenantOf(ParseResult parsed) => parsed.GetValue(_tenant) switch
    {
        null => null,
        var id when Tenant.IsId(id) => new Tenant(id),
        var id => throw CommandException.Usage($"--tenant takes 1 to {Tenant.MaximumIdLength} letters, digits, '-' or '_', not '{id}'."),
    };

    private string NameOf(ParseResult parsed)
    {
        var name = parsed.GetValue(_name) ?? "";
        return name.Length <= MostNameLetters
            ? name
            : throw CommandException.Usage($"--name takes at most {MostNameLetters} characters; {name.Length} are given.");
    }

    private TimeSpan? LifetimeOf(ParseResult parsed) =>
        parsed.GetValue(_days) is { } days ? TimeSpan.FromDays(days) : null;

    // The key alone on standard output, so that it can go straight into a file.
    private async Task<int> ShowAsync(KeyInfo key, string text, ReaderWords words)
    {
        await _session.Out.WriteLineAsync(text);
        await _session.Error.WriteLineAsync(words.Fill("{0}. It is shown only now; keep it where secrets are kept.", KeyText.Of(key, words)));
        return ExitCode.Done;
    }
}
