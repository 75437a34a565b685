using PupilBridge.Fuzz;

return FuzzCommand.Run(args);
