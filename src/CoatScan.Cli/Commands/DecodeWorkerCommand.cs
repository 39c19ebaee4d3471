using System.CommandLine;
using CoatScan.Imaging.Children;

namespace CoatScan.Cli.Commands;

/// <summary>The hidden command by which a service starts its child processes.</summary>
internal static class DecodeWorkerCommand
{
    /// <summary>Its name.</summary>
    public const string Name = "decode-worker";

    /// <summary>How to start this program with it.</summary>
    public static IReadOnlyList<string> OfThisProgram()
    {
        var program = Environment.ProcessPath!;
        return Path.GetFileNameWithoutExtension(program) == "dotnet"
            ? [program, typeof(DecodeWorkerCommand).Assembly.Location, Name]
            : [program, Name];
    }

    /// <summary>Creates the command.</summary>
    public static Command Create()
    {
        var command = new Command(Name, "Decodes photos for a service that has started it.") { Hidden = true };
        command.SetAction(_ =>
        {
            using var input = Console.OpenStandardInput();
            using var output = new BufferedStream(Console.OpenStandardOutput(), 64 * 1024);
            DecodeWorker.Run(input, output);
            return ExitCode.Done;
        });
        return command;
    }
}
