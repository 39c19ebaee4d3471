using CoatScan.StressTests.Trials;

namespace CoatScan.StressTests;

/// <summary>Runs one trial against services in processes of their own, and says whether its bar is met.</summary>
internal static class StressProgram
{
    private const string Usage = """
        overload  [--seconds 180] [--factor 10]         O1: refused at once, accepted in time, memory bounded, normal again
        lanes     [--items 5000] [--seconds 120]        O2: calls while a batch runs
        idle      [--streams 1000] [--slow 20]          O3: idle and slow senders
        rolling   [--restarts 6] [--callers 4]          D2: two instances on one store, restarted in turn
        memory    [--minutes 60] [--warm-up-minutes 5] [--plant-leak]   M1: mixed load; the leak must be found
        kills     [--shared] [--trials 25] [--items 500] [--kills 4] [--seed 1]   kill -9 in the middle of batches: one service on
                  SQLite, or two on PostgreSQL and RabbitMQ, which are killed too
        workers   [--rounds 5] [--items 100] [--cores 0,1]   one worker process on one core, then two on two, in turn, on PostgreSQL and
                  RabbitMQ, which run beside them unbound; twice the items for two; photos a second from a tenth to nine tenths of a batch
        large-batch  [--items 20000]                    small photos on SQLite: memory above idle all along, size of the database

        COATSCAN_STRESS_COMMAND names another coatscan to start than the one built beside this program: a program, or a .dll for dotnet.
        """;

    /// <returns>0 the bar is met, 1 it is not, 2 usage.</returns>
    public static async Task<int> RunAsync(string[] words, TextWriter output, TextWriter error)
    {
        try
        {
            var options = new TrialOptions(words.Skip(1));
            if (words is ["host", ..])
            {
                await LeakyHost.RunAsync(options);
                return 0;
            }

            var figures = new Figures(words.FirstOrDefault() ?? "");
            Func<TrialOptions, Figures, Task> trial = words.FirstOrDefault() switch
            {
                "overload" => OverloadTrial.RunAsync,
                "lanes" => LanesTrial.RunAsync,
                "idle" => IdleTrial.RunAsync,
                "rolling" => RollingTrial.RunAsync,
                "memory" => MemoryTrial.RunAsync,
                "kills" => KillTrial.RunAsync,
                "workers" => WorkersTrial.RunAsync,
                "large-batch" => LargeBatchTrial.RunAsync,
                _ => throw new ArgumentException("No such trial."),
            };
            await trial(options, figures);
            await figures.WriteAsync(output);
            return figures.AllMet ? 0 : 1;
        }
        catch (ArgumentException usage)
        {
            await error.WriteLineAsync($"{usage.Message}\n{Usage}");
            return 2;
        }
    }
}
