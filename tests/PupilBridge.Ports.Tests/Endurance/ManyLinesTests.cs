using System.Globalization;
using System.Runtime.Versioning;
using System.Text;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
[Collection("endurance")]
public sealed class ManyLinesTests
{
    private const int Lines = 20_000;
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);

    [Theory]
    [InlineData("terminal", Lines)]
    [InlineData("serial", Lines / 20)] // A write takes that library more than a millisecond.
    public async Task None_of_20000_lines_is_lost_while_answers_go_the_other_way(string adapter, int answers)
    {
        await using var instrument = new PseudoTerminal(TestLinks.Next());
        var address = PortAddress.Parse($"{adapter}:{instrument.LinkPath}");
        await using var host = await new PortOpeners(new PortSettings()).For(address).OpenAsync();

        var atHost = ReadLines(host, Lines);
        var atInstrument = ReadLines(instrument, answers);
        await Task.WhenAll(WriteLines(instrument, "EV", Lines), WriteLines(host, "ACK", answers)).WaitAsync(Deadline);

        Assert.Equal(Expected("EV", Lines), await atHost.WaitAsync(Deadline));
        Assert.Equal(Expected("ACK", answers), await atInstrument.WaitAsync(Deadline));
    }

    private static List<string> Expected(string kind, int count) =>
        [.. Enumerable.Range(1, count).Select(n => Line(kind, n))];

    private static string Line(string kind, int number) =>
        string.Create(CultureInfo.InvariantCulture, $"{kind},0123456789ABCDEF,{number},REST,R,{number * 7 % 99999}");

    private static async Task WriteLines(IPort port, string kind, int count)
    {
        var chance = new Random(count);
        for (var number = 1; number <= count; number++)
        {
            var bytes = Encoding.ASCII.GetBytes(Line(kind, number) + "\n");
            var cut = chance.Next(bytes.Length);
            await port.WriteAsync(bytes.AsMemory(0, cut), Deadline);
            await port.WriteAsync(bytes.AsMemory(cut), Deadline);
        }
    }

    private static async Task<List<string>> ReadLines(IPort port, int count)
    {
        var text = new StringBuilder();
        var buffer = new byte[4096];
        var ends = 0;
        while (ends < count)
        {
            var read = await port.ReadAsync(buffer);
            ends += buffer.AsSpan(0, read).Count((byte)'\n');
            text.Append(Encoding.Latin1.GetString(buffer, 0, read));
        }

        return [.. text.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries)];
    }
}
