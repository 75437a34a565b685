using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.CommandLine;

/// <summary>The promise of the exit codes: each has a meaning, and the document lists exactly those.</summary>
public sealed class ExitCodeTests
{
    [Fact]
    public void The_document_lists_every_exit_code_with_its_number_and_meaning()
    {
        var document = File.ReadAllLines(Checkout.At("docs", "command-line.md"));
        var rows = document
            .SkipWhile(line => !line.StartsWith("## Exit codes", StringComparison.Ordinal))
            .Where(line => line.StartsWith('|'))
            .Skip(2)
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries))
            .TakeWhile(cells => int.TryParse(cells[1], CultureInfo.InvariantCulture, out _))
            .Select(cells => (Number: int.Parse(cells[1], CultureInfo.InvariantCulture), Meaning: cells[2]));
        Assert.Equal(ExitCodes.All.Select(code => ((int)code, ExitCodes.Meaning(code))), rows);
    }
}
