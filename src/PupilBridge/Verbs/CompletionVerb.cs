using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Completion;

namespace PupilBridge.Verbs;

/// <summary><c>completion</c>: prints the script that teaches a shell to complete this program's words.</summary>
internal sealed class CompletionVerb : Verb
{
    private readonly Argument<string> shell = new("shell") { Description = "The shell that the script is for." };

    public CompletionVerb()
        : base("completion", "Prints the script that makes a shell complete commands, options and their values.")
    {
        shell.AcceptOnlyFromAmong([.. CompletionScripts.Shells]);
        Add(shell);
        Example("source <(pupilbridge completion bash)", "completes in this bash session");
        Example(
            "pupilbridge completion fish > ~/.config/fish/completions/pupilbridge.fish",
            "completes in every fish session"
        );
        Example("pupilbridge completion pwsh | Out-String | Invoke-Expression", "completes in this PowerShell session");
        Does(
            (call, _) =>
            {
                call.Terminal.Out.Write(CompletionScripts.For(call.Get(shell)!));
                return Task.FromResult(ExitCode.Done);
            }
        );
    }
}
