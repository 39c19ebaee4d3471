using CoatScan.StressTests;

return await StressProgram.RunAsync(args, Console.Out, Console.Error);
