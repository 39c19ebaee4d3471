using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Input;
using CoatScan.Cli.Json;
using CoatScan.Cli.Text;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan spray-day</c>: whether and how to spray.</summary>
internal sealed class SprayDayCommand
{
    private static readonly NumberRange Celsius = new(-30, 60, LowAllowed: true);

    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly Option<OutputFormat?> _format = FormatOption.Create();

    private readonly Option<double?> _air = NumberOption.One("--air", "Air temperature now, Celsius.", Celsius);

    private readonly Option<double?> _humidity = NumberOption.One(
        "--humidity", "Relative humidity now, percent.", new(0, 100, LowAllowed: false));

    private readonly Option<double?> _panel = NumberOption.One(
        "--panel", "Panel temperature now, Celsius; the air's if not given.", new(-30, 90, LowAllowed: true));

    private readonly Option<string> _finish = new("--finish")
    {
        Description = "lacquer, synthetic_enamel, single_stage_2k, basecoat_clearcoat or waterborne_base.",
        HelpName = "finish",
        Required = true,
    };

    private readonly Option<string> _job = new("--job")
    {
        Description = "spot, one_panel, several_panels or whole_vehicle.",
        HelpName = "job",
        DefaultValueFactory = _ => "one_panel",
    };

    private readonly Option<string?> _forecast = new("--forecast")
    {
        Description = "File with a JSON list of hours to come: "
            + "[{\"hour\":\"14:00\",\"airC\":21,\"humidityPercent\":60,\"panelC\":20}].",
        HelpName = "file",
    };

    private SprayDayCommand(Session session)
    {
        _session = session;
        _air.Required = true;
        _humidity.Required = true;
    }

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var day = new SprayDayCommand(session);
        var command = new Command(
            "spray-day",
            "Says whether and how to spray: dew point, limits, thinner speed, flash, recoat. The product sheet wins.")
        {
            day._air,
            day._humidity,
            day._panel,
            day._finish,
            day._job,
            day._forecast,
            day._format,
        };
        day._service.AddTo(command);
        command.SetAction(day.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var request = new PlanSprayDayRequest { Finish = parsed.GetValue(_finish), Job = parsed.GetValue(_job) };
        request.AirC = parsed.GetValue(_air)!.Value;
        request.HumidityPercent = parsed.GetValue(_humidity)!.Value;
        if (parsed.GetValue(_panel) is { } panelC)
        {
            request.PanelC = panelC;
        }

        if (parsed.GetValue(_forecast) is { } file)
        {
            request.Forecast.AddRange(ForecastFile.Read(file));
        }

        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        var plan = await PlanAsync(service, request, cancellationToken);
        if (parsed.GetValue(_format) == OutputFormat.Json)
        {
            await _session.Out.WriteLineAsync(MessageJson.Line(plan));
            return ExitCode.Done;
        }

        var page = new TextPage(_session.Terminal.WidthColumns, _session.Terminal.ColorOutput, LanguageOption.Of(parsed));
        SprayPlanText.Write(page, plan, _session.Terminal.WidthColumns);
        await _session.Out.WriteAsync(page.ToString());
        return ExitCode.Done;
    }

    private static async Task<SprayPlan> PlanAsync(
        ServiceConnection service, PlanSprayDayRequest request, CancellationToken cancellationToken)
    {
        try
        {
            return await service.SprayDay.PlanSprayDayAsync(
                request, deadline: ServiceConnection.ControlDeadline(), cancellationToken: cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.InvalidArgument)
        {
            throw CommandException.Failed(ServiceError.Of(failure).Message);
        }
    }
}
