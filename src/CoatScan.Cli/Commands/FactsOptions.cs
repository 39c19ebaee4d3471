using System.CommandLine;
using System.Globalization;
using CoatScan.Cli.Input;
using CoatScan.V1;

namespace CoatScan.Cli.Commands;

/// <summary>The options of <c>inspect</c> that say what a photo cannot show. Ranges are the contract's.</summary>
internal sealed class FactsOptions
{
    private const int LongestPanelName = 64;
    private const int LongestSaidBy = 64;
    private const int MostFilmReadings = 200;

    private readonly Option<string?> _panel = new("--panel")
    {
        Description = "Name of the panel, at most 64 characters; comes back in the finding.",
        HelpName = "name",
    };

    private readonly Option<string?> _evidence = new("--evidence")
    {
        Description = "What else is known about the car: ids separated by commas, or a file with an id a line "
            + "(# starts a comment). 'coatscan evidence' lists the ids.",
        HelpName = "file|id,id",
    };

    private readonly Option<string?> _saidBy = new("--said-by")
    {
        Description = "Who said what --evidence names, at most 64 characters, for example owner; comes back with each item.",
        HelpName = "name",
    };

    private readonly Option<IReadOnlyList<double>> _filmUm = NumberOption.Many(
        "--film-um",
        "Film thickness readings in micrometers, for example 118,125; may be given more than once.",
        new(0, 10_000, LowAllowed: false),
        MostFilmReadings);

    private readonly Option<double?> _gloss60 = NumberOption.One(
        "--gloss-60", "Gloss at 60 degrees in gloss units, 0 to 200.", new(0, 200, LowAllowed: true));

    private readonly Option<double?> _deltaE00 = NumberOption.One(
        "--delta-e-00", "CIEDE2000 color difference to the neighbor panel, 0 to 100.", new(0, 100, LowAllowed: true));

    private readonly Option<string?> _appliedOn = new("--applied-on")
    {
        Description = "Day on which the finish was applied, for example 2026-05-01: waits are then given as dates.",
        HelpName = "date",
    };

    private readonly Option<double?> _mmPerPx = NumberOption.One(
        "--mm-per-px",
        "Scale of the photos: millimeters per pixel, up to 10. Without it lengths are in pixels.",
        new(0, 10, LowAllowed: false));

    private readonly Option<double?> _reflectedDistanceMm = NumberOption.One(
        "--reflected-distance-mm",
        "From the panel to the straight object that it mirrors, millimeters, up to 100000. With --camera-distance-mm and a scale, waviness by reflected edge comes in mrad.",
        new(0, 100_000, LowAllowed: false));

    private readonly Option<double?> _cameraDistanceMm = NumberOption.One(
        "--camera-distance-mm",
        "From the panel to the camera, millimeters, up to 100000; goes with --reflected-distance-mm.",
        new(0, 100_000, LowAllowed: false));

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_panel);
        command.Options.Add(_evidence);
        command.Options.Add(_saidBy);
        command.Options.Add(_filmUm);
        command.Options.Add(_gloss60);
        command.Options.Add(_deltaE00);
        command.Options.Add(_appliedOn);
        command.Options.Add(_mmPerPx);
        command.Options.Add(_reflectedDistanceMm);
        command.Options.Add(_cameraDistanceMm);
        command.Validators.Add(result =>
        {
            if (result.GetResult(_panel) is { Tokens: [var name] } && name.Value.Length > LongestPanelName)
            {
                result.AddError($"--panel takes at most {LongestPanelName} characters; {name.Value.Length} are given.");
            }

            if (result.GetResult(_appliedOn) is { Tokens: [var day] }
                && !DateOnly.TryParseExact(day.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _))
            {
                result.AddError($"--applied-on takes a date as 2026-05-01, not '{day.Value}'.");
            }

            if (result.GetResult(_reflectedDistanceMm) is null != result.GetResult(_cameraDistanceMm) is null)
            {
                result.AddError("--reflected-distance-mm and --camera-distance-mm go together: give both or neither.");
            }

            if (result.GetResult(_saidBy) is { Tokens: [var who] } && who.Value.Length > LongestSaidBy)
            {
                result.AddError($"--said-by takes at most {LongestSaidBy} characters; {who.Value.Length} are given.");
            }
        });
    }

    /// <summary>What the caller knows.</summary>
    /// <exception cref="CommandException">The evidence cannot be read.</exception>
    public PanelFacts Read(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        var facts = new PanelFacts
        {
            Panel = parsed.GetValue(_panel) ?? "",
            AppliedOn = parsed.GetValue(_appliedOn) ?? "",
        };
        if (parsed.GetValue(_evidence) is { } evidence)
        {
            var ids = EvidenceList.Read(evidence);
            if (parsed.GetValue(_saidBy) is { Length: > 0 } name)
            {
                facts.Statements.AddRange(ids.Select(id => new Statement { Evidence = id, SaidBy = name }));
            }
            else
            {
                facts.Evidence.AddRange(ids);
            }
        }

        if (parsed.GetValue(_mmPerPx) is { } mmPerPx)
        {
            facts.MmPerPx = mmPerPx;
        }

        if (parsed.GetValue(_reflectedDistanceMm) is { } reflected && parsed.GetValue(_cameraDistanceMm) is { } camera)
        {
            (facts.ReflectedDistanceMm, facts.CameraDistanceMm) = (reflected, camera);
        }

        var readings = new Readings();
        readings.FilmUm.AddRange(parsed.GetValue(_filmUm) ?? []);
        if (parsed.GetValue(_gloss60) is { } gloss60)
        {
            readings.Gloss60 = gloss60;
        }

        if (parsed.GetValue(_deltaE00) is { } deltaE00)
        {
            readings.DeltaE00 = deltaE00;
        }

        if (readings.CalculateSize() > 0)
        {
            facts.Readings = readings;
        }

        return facts;
    }
}
