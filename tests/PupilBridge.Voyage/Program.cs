return await new PupilBridge.Voyage.Runs.VoyageCommand().Parse(args).InvokeAsync();
