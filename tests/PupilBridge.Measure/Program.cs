using PupilBridge.Measure;

return await new MeasureCommand().Parse(args).InvokeAsync();
