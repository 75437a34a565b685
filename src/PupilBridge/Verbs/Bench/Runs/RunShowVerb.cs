using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary><c>calibration show</c>: one run with all its readings and what it says.</summary>
internal sealed class RunShowVerb : Verb
{
    private readonly Argument<long> run = new("run") { Description = "The run's number." };
    private readonly Option<bool> json = CommonOptions.Json();

    public RunShowVerb()
        : base(
            "show",
            "Shows one run on the bench: every reading, those set aside included, and what follows from them."
        )
    {
        Add(run);
        Add(json);
        Example("pupilbridge calibration show 412", "run 412");
        EndsWith(DeskAccess.Exits);
        Does(ShowAsync);
    }

    private async Task<ExitCode> ShowAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var view = await access.RunAsync(call.Get(run), cancel).ConfigureAwait(false);
            if (call.Get(json))
            {
                call.PrintJson(view);
            }
            else
            {
                RunText.PrintWhole(call, view);
            }
        }

        return ExitCode.Done;
    }
}
