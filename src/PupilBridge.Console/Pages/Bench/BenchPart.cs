using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Bench;

/// <summary>What every page of the service bench, and every part of one, has at hand.</summary>
public abstract class BenchPart : PagePart
{
    /// <summary>The words of the bench.</summary>
    protected static HouseText B => BenchText.Words;

    /// <summary>Whether the caller works at the bench; others only look.</summary>
    protected bool IsTechnician => Desks.May(Roles.Bench);

    /// <summary>The way to a run.</summary>
    protected static string ToRun(long run) => BenchWays.Run(run);
}
