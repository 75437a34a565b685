using System.Text.Json;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Browser.Served;

/// <summary>The people of the demo clinic, made with the program's own command before the service starts.</summary>
public static class People
{
    /// <summary>Examines.</summary>
    public const string Examiner = "HV";

    /// <summary>Examines, too.</summary>
    public const string OtherExaminer = "MK";

    /// <summary>Reviews and signs.</summary>
    public const string Clinician = "TL";

    /// <summary>Looks after the people.</summary>
    public const string Administrator = "AB";

    /// <summary>Looks after the instruments.</summary>
    public const string Technician = "RS";

    /// <summary>Whose exam awaits review in a folder that is not empty.</summary>
    public const string Patient = "Q-1003";

    /// <summary>Everybody with their role.</summary>
    public static IReadOnlyList<(string Who, string Role)> All { get; } =
    [
        (Administrator, "administrator"),
        (Examiner, "examiner"),
        (OtherExaminer, "examiner"),
        (Clinician, "clinician"),
        (Technician, "technician"),
    ];

    private static readonly Lazy<Task<string>> Alone = new(() => MakeAsync(withExam: false));
    private static readonly Lazy<Task<string>> WithExam = new(() => MakeAsync(withExam: true));

    /// <summary>Puts them into an empty data folder. They are made once and copied, since each command takes its time.</summary>
    /// <param name="dataFolder">The data folder of a service that does not run.</param>
    /// <param name="withExam">Whether an exam of <see cref="Patient"/> with an afferent defect awaits review there.</param>
    internal static async Task MoveInAsync(string dataFolder, bool withExam)
    {
        var made = await (withExam ? WithExam : Alone).Value.ConfigureAwait(false);
        foreach (var from in Directory.EnumerateFiles(made, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(dataFolder, Path.GetRelativePath(made, from));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(from, to);
        }
    }

    private static async Task<string> MakeAsync(bool withExam)
    {
        var folder = Directory.CreateTempSubdirectory("pb-people-").FullName;
        if (withExam)
            folder = await DemoAsync(folder).ConfigureAwait(false);
        foreach (var (who, role) in All)
        {
            string[] words = ["people", "add", who, "--role", role, "--data", folder];
            var run = await ProgramRun.RunWithInputAsync(ServedConsole.Password + "\n", words).ConfigureAwait(false);
            if (run.ExitCode != 0)
                throw new InvalidOperationException($"'people add {who}' ended with {run.ExitCode}: {run.Errors}");
        }

        return folder;
    }

    private static async Task<string> DemoAsync(string folder)
    {
        var demo = await ProgramRun
            .RunAsync("demo", "--scenario", "right-rapd-marked", "--json", "--data", folder)
            .ConfigureAwait(false);
        if (demo.ExitCode != 0)
            throw new InvalidOperationException($"'demo' ended with {demo.ExitCode}: {demo.Errors}");
        using var told = JsonDocument.Parse(demo.Output);
        return told.RootElement.GetProperty("folder").GetString()!;
    }
}
