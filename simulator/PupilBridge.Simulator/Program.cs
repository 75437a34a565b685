using PupilBridge.Simulator.CommandLine;

using var stopping = new Stopping();
return await SimulatorProgram
    .RunAsync(args, Console.Out, Console.Error, TimeProvider.System, stopping.Token)
    .ConfigureAwait(false);
