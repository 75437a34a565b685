using Microsoft.Extensions.Logging;

namespace PupilBridge.Worker.Tests;

/// <summary>What a start finds wrong with the journal stands in the log, and the service goes on.</summary>
public sealed class JournalProblemLogTests
{
    [Fact]
    public async Task A_damaged_header_is_told_at_the_start_and_a_sound_journal_is_not_spoken_of()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        await bench.WrittenAsync(await bench.ExamineAsync("Q-1001"));
        var log = new KeptLog();
        await OpenAgain(bench, log);
        Assert.DoesNotContain(log.Lines, line => line.Contains("not as it was written", StringComparison.Ordinal));

        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        var segment = Path.Combine(bench.DataFolder, "journal", "segment-0000000001.pbj");
        var bytes = await File.ReadAllBytesAsync(segment);
        bytes[100] ^= 1;
        await File.WriteAllBytesAsync(segment, bytes);
        await OpenAgain(bench, log);

        var told = Assert.Single(log.Lines, line => line.Contains("not as it was written", StringComparison.Ordinal));
        Assert.Contains("segment-0000000001.pbj", told, StringComparison.Ordinal);
    }

    private static async Task OpenAgain(BridgeBench bench, KeptLog log)
    {
        await bench.Bridge.StopAsync();
        await bench.Bridge.DisposeAsync();
        bench.Logger = log;
        bench.Open();
        await bench.Live();
    }

    private sealed class KeptLog : ILogger
    {
        private readonly List<string> lines = [];

        public IReadOnlyList<string> Lines
        {
            get
            {
                lock (lines)
                    return [.. lines];
            }
        }

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel,
            EventId eventId,
            TState state,
            Exception? exception,
            Func<TState, Exception?, string> formatter
        )
        {
            lock (lines)
                lines.Add(formatter(state, exception));
        }
    }
}
