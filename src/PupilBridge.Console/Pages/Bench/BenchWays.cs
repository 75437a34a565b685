using System.Globalization;

namespace PupilBridge.Console.Pages.Bench;

/// <summary>The ways between the pages of the service bench.</summary>
internal static class BenchWays
{
    /// <summary>All instruments and sets of discs.</summary>
    public const string Bench = "/bench";

    /// <summary>A run.</summary>
    public static string Run(long run) => string.Create(CultureInfo.InvariantCulture, $"/bench/runs/{run}");

    /// <summary>The draft of a run's certificate.</summary>
    public static string Draft(long run) => $"{Run(run)}/certificate";

    /// <summary>A certificate.</summary>
    public static string Certificate(long number) =>
        string.Create(CultureInfo.InvariantCulture, $"/bench/certificates/{number}");

    /// <summary>What is to be measured on an instrument.</summary>
    public static string Begin(string instrument) => $"/bench/begin/{Uri.EscapeDataString(instrument)}";

    /// <summary>How an instrument went over time.</summary>
    public static string Drift(string instrument) => $"/bench/drift/{Uri.EscapeDataString(instrument)}";

    /// <summary>An instrument's lamps.</summary>
    public static string Lamps(string instrument) => $"/bench/lamps/{Uri.EscapeDataString(instrument)}";
}
