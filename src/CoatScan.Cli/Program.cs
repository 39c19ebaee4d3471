using System.Runtime.InteropServices;
using System.Text;
using CoatScan.Cli;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
using var stop = new CancellationTokenSource();
void Stop(PosixSignalContext context)
{
    // The first signal asks for a clean end; a second one finds no handler left that cancels and ends the process.
    context.Cancel = !stop.IsCancellationRequested;
    stop.Cancel();
}

using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
return await CommandLineProgram.RunAsync(
    args, Console.In, Console.Out, Console.Error, Terminal.OfThisProcess(), stop.Token);
