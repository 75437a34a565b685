using System.CommandLine;
using System.CommandLine.Completions;
using System.CommandLine.Help;
using PupilBridge.Verbs;
using PupilBridge.Verbs.Config;
using PupilBridge.Verbs.Journal;

namespace PupilBridge.CommandLine;

/// <summary>All commands of the program, as one tree.</summary>
internal static class CommandTree
{
    /// <summary>Builds the tree.</summary>
    /// <returns>The root, ready to parse.</returns>
    public static RootCommand Build()
    {
        var root = new RootCommand(
            "Listens to an instrumented pupil tester, records every reading before it is acknowledged, and writes the "
                + "chart line. It shows what was measured and never diagnoses."
        );
        root.Options.Clear();
        root.Add(
            new HelpOption("--help", "-h")
            {
                Description = "Show this help.",
                Action = new HelpWithExamples(),
                Recursive = true,
            }
        );
        root.Add(new VersionOption("--version") { Description = "Show the program's version." });
        root.Add(CommonOptions.Data);
        foreach (var verb in Verbs())
        {
            root.Add(verb);
        }

        root.Directives.Clear();
        root.Add(new SuggestDirective());
        root.TreatUnmatchedTokensAsErrors = true;
        return root;
    }

    private static IEnumerable<Verb> Verbs() =>
        [
            new PortsVerb(),
            new Group(
                "journal",
                "The journal, which is the truth: print it, check it, build the exam log anew from it.",
                new JournalListVerb()
            ),
            new Group(
                "config",
                "The settings: what is in use, and whether it is valid.",
                new ConfigCheckVerb(),
                new ConfigShowVerb()
            ),
            new CompletionVerb(),
        ];
}
