using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.CommandLine;
using PupilBridge.Hosting;

namespace PupilBridge.Tests.CommandLine;

/// <summary>What comes from outside cannot play terminal or log (CWE-117, CWE-150; ASVS 5.0, 16.4.1).</summary>
public sealed class PlainTextTests
{
    [Theory]
    [InlineData("Q-1001", "Q-1001")]
    [InlineData("Zoë Łukasz 山", "Zoë Łukasz 山")]
    [InlineData("a\u001b[2Jb", "a\\u001B[2Jb")]
    [InlineData("a\u009b2Jb", "a\\u009B2Jb")]
    [InlineData("a\rb\nc\u0007", "a\\u000Db\\u000Ac\\u0007")]
    [InlineData("abc\u202Ecba", "abc\\u202Ecba")]
    public void What_would_move_the_cursor_or_turn_the_writing_stands_there_as_its_number(string text, string shown) =>
        Assert.Equal(shown, PlainText.Shown(text));

    [Fact]
    public void A_message_with_line_ends_and_escapes_is_one_line()
    {
        var written = new StringWriter();
        var entry = new LogEntry<string>(
            LogLevel.Error,
            "c",
            0,
            "day-list\u001b]0;x\u0007\r\n12:00:00 forged.csv",
            new IOException("a\nb\u001b[31m"),
            (state, _) => state
        );
        new PlainLines(TimeProvider.System).Write(entry, null, written);
        var lines = written.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        Assert.DoesNotContain('\u001b', written.ToString());
        Assert.DoesNotContain(lines, line => line.StartsWith("12:00:00 forged", StringComparison.Ordinal));
    }

    [Fact]
    public void A_table_shows_no_escape_of_a_cell()
    {
        var output = new StringWriter();
        var table = new TextTable("patient");
        table.Add("Q-1\u001b[2J");
        table.Print(
            new Terminal
            {
                Out = output,
                Error = output,
                IsInteractive = false,
            }
        );
        Assert.DoesNotContain('\u001b', output.ToString());
    }
}
