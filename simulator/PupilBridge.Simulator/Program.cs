using PupilBridge.Simulator.CommandLine;

using var stopping = new Stopping();
return await SimulatorProgram
    .RunAsync(args, System.Console.Out, System.Console.Error, TimeProvider.System, stopping.Token, System.Console.In)
    .ConfigureAwait(false);
