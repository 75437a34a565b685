using System.CommandLine;
using System.CommandLine.Completions;
using System.CommandLine.Help;
using PupilBridge.Verbs;
using PupilBridge.Verbs.Agreement;
using PupilBridge.Verbs.Audit;
using PupilBridge.Verbs.Backups;
using PupilBridge.Verbs.Bench;
using PupilBridge.Verbs.Bench.Certificates;
using PupilBridge.Verbs.Bench.Discs;
using PupilBridge.Verbs.Bench.Guided;
using PupilBridge.Verbs.Bench.Runs;
using PupilBridge.Verbs.Bench.WhatIf;
using PupilBridge.Verbs.Calibration;
using PupilBridge.Verbs.Config;
using PupilBridge.Verbs.Exams;
using PupilBridge.Verbs.ExpectSize;
using PupilBridge.Verbs.Export;
using PupilBridge.Verbs.Instruments;
using PupilBridge.Verbs.Journal;
using PupilBridge.Verbs.Keys;
using PupilBridge.Verbs.Outbox;
using PupilBridge.Verbs.Patients;
using PupilBridge.Verbs.People;
using PupilBridge.Verbs.Protection;

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
            RefuseOptionsAsValues(verb);
        }

        root.Directives.Clear();
        root.Add(new SuggestDirective());
        root.TreatUnmatchedTokensAsErrors = true;
        return root;
    }

    /// <summary>A mistyped option must not be taken for a patient's number or a word of a judgement.</summary>
    private static void RefuseOptionsAsValues(Command command)
    {
        foreach (var argument in command.Arguments)
        {
            argument.Validators.Add(result =>
            {
                foreach (var token in result.Tokens.Where(t => t.Value.StartsWith("--", StringComparison.Ordinal)))
                {
                    result.AddError($"'{token.Value}' is no option of this command.");
                }
            });
        }

        foreach (var option in command.Options.Where(option => option.Arity.MaximumNumberOfValues > 0))
        {
            option.Validators.Add(CommonOptions.RefuseOptionAsValue);
        }

        foreach (var sub in command.Subcommands)
        {
            RefuseOptionsAsValues(sub);
        }
    }

    private static IEnumerable<Verb> Verbs() =>
        [
            new DemoVerb(),
            new ServeVerb(),
            new PortsVerb(),
            new WatchVerb(),
            new Group(
                "exams",
                "The exam log: find exams, read them, take their chart text and report.",
                new ExamsListVerb(),
                new ExamsShowVerb(),
                new ExamsChartVerb(),
                new ExamsReportVerb(),
                new ExamsExportVerb()
            ),
            new Group(
                "patients",
                "Patients: their visits beside each other, and two numbers that are one person.",
                new PatientsHistoryVerb(),
                new PatientsMergeVerb(),
                new PatientsPartVerb(),
                new PatientsEraseVerb(),
                new PatientsDueVerb()
            ),
            new Group(
                "exam",
                "The course of an exam: open it, say whose it is, finish it.",
                new ExamOpenVerb(),
                new ExamAttachVerb(),
                new ExamReadyVerb()
            ),
            new Group(
                "export",
                "Tables of many exams: for the clinic's own use, or for research without identities.",
                new ExportTableVerb(),
                new ExportResearchVerb(),
                new ExportDictionaryVerb()
            ),
            new GradeVerb(),
            new RoomVerb(),
            new EyeStatusVerb(),
            new Group(
                "journal",
                "The journal, which is the truth: print it, check it, build the exam log anew from it.",
                new JournalVerifyVerb(),
                new JournalHeadVerb(),
                new JournalStampVerb(),
                new JournalRebuildVerb(),
                new JournalListVerb()
            ),
            new BackupVerb(),
            new RestoreVerb(),
            new Group(
                "people",
                "Who may sign in at the console. Whoever may write to the data folder may use these commands.",
                new PeopleListVerb(),
                new PeopleAddVerb(),
                new PeoplePasswordVerb(),
                new PeopleSwitchVerb(isEnabled: false),
                new PeopleSwitchVerb(isEnabled: true)
            ),
            new Group(
                "keys",
                "Keys by which programs use the web API. Whoever may write to the data folder may use these commands.",
                new KeysListVerb(),
                new KeysAddVerb(),
                new KeysRevokeVerb()
            ),
            new Group(
                "audit",
                "Who saw which record, who signed in, and who was refused.",
                new AuditListVerb(),
                new AuditVerifyVerb()
            ),
            new Group(
                "protection",
                "Encryption at rest: what is encrypted, and the master key.",
                new ProtectionStatusVerb(),
                new ProtectionRotateVerb()
            ),
            new Group(
                "outbox",
                "Signed versions on their way to another system: what rests, and what becomes of it.",
                new OutboxListVerb(),
                OutboxDecisionVerb.Retry(),
                OutboxDecisionVerb.Withhold()
            ),
            new Group(
                "config",
                "The settings: what is in use, and whether it is valid.",
                new ConfigCheckVerb(),
                new ConfigShowVerb()
            ),
            new Group(
                "calibration",
                "The service bench: calibrate scales with reference discs, issue certificates, watch drift, timing and lamps.",
                new CalibrationFitVerb(),
                new Group(
                    "discs",
                    "The sets of reference discs, with their certificates.",
                    new DiscsAddVerb(),
                    new DiscsListVerb()
                ),
                new CalibrationRunVerb(),
                new QuickCheckVerb(),
                new TimingVerb(),
                new LiveVerb(),
                new AdoptVerb(),
                new LampsVerb(),
                new RunsListVerb(),
                new RunShowVerb(),
                new IssueVerb(),
                new CertificateVerb(),
                new DriftVerb(),
                new ApplyVerb()
            ),
            new Group(
                "instrument",
                "The bench of those who write firmware: the raw lines of an attached instrument, and a check against the protocol.",
                new InstrumentCheckVerb(),
                new InstrumentTraceVerb()
            ),
            new ExpectSizeVerb(),
            new AgreementVerb(),
            new CompletionVerb(),
        ];
}
