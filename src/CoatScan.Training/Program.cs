using CoatScan.Training;

return await TrainingProgram.RunAsync(args, Console.Out, Console.Error);
