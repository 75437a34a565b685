using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.Verbs.Exams;

namespace PupilBridge.Demo;

/// <summary>
/// Tells the course of the demo exam as it goes, each line with the exam's own time. A finding is told only when it is
/// recorded: it is read back from the exam log, never taken from the simulation.
/// </summary>
/// <param name="print">Prints a line.</param>
/// <param name="time">The demo's clock.</param>
internal sealed class DemoCourse(Action<string> print, SteppedTime time)
{
    private readonly HashSet<long> sizesTold = [];
    private readonly HashSet<long> incidentsTold = [];
    private readonly Dictionary<(string Block, int Run), int> stimuliTold = [];
    private string asked = "";

    /// <summary>Tells something with the exam's time before it.</summary>
    /// <param name="text">What to tell.</param>
    public void Tell(string text) =>
        print(string.Create(CultureInfo.InvariantCulture, $"{time.Elapsed:mm\\:ss\\.f}  {text}"));

    /// <summary>Tells what is new in the exam.</summary>
    /// <param name="exam">The exam as it stands in the log.</param>
    public void Look(ExamView exam)
    {
        foreach (var size in exam.Sizes.Where(size => sizesTold.Add(size.Sequence)).OrderBy(size => size.Sequence))
        {
            Tell(
                $"recorded   size {size.Eye}, {size.Light ?? "light not said"}: {ExamText.Diameter(size)}{Dark(size)}"
            );
        }

        foreach (var run in exam.Stimuli.GroupBy(s => (s.Block, s.Run)).Where(run => run.Count() > Told(run.Key)))
        {
            TellStimuli(run.Key, [.. run]);
        }

        foreach (var incident in exam.Incidents.Where(incident => incidentsTold.Add(incident.Sequence)))
        {
            Tell($"note       {incident.What} {incident.Detail}".TrimEnd());
        }

        var next = exam.AskedFor.Steps is [var first, ..] ? first.Words : "";
        if (next.Length > 0 && next != asked)
        {
            Tell($"asked for  {next}");
        }

        asked = next;
    }

    private int Told((string, int) run) => stimuliTold.GetValueOrDefault(run);

    private void TellStimuli((string Block, int Run) run, StimulusView[] stimuli)
    {
        foreach (var stimulus in stimuli.Skip(Told(run)).Where(s => s.DwellMilliseconds is not null))
        {
            stimuliTold[run] = Told(run) + 1;
            Tell(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"recorded   {run.Block} {stimuliTold[run]}: light in {stimulus.Eye} for {stimulus.DwellMilliseconds / 1000.0:0.000} s, timing {stimulus.Timing}"
                )
            );
        }
    }

    private static string Dark(SizeView size) =>
        size.DarkSeconds is { } seconds
            ? string.Create(CultureInfo.InvariantCulture, $", {seconds:0} s in the dark")
            : "";
}
