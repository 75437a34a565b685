using PupilBridge.CommandLine;
using PupilBridge.Data;

PrivateByDefault.Begin();
using var interruptions = new Interruptions();
var runner = new Runner(CommandTree.Build(), Terminal.OfProcess(), Surroundings.OfProcess);
return await runner.RunAsync(args, interruptions.Token).ConfigureAwait(false);
