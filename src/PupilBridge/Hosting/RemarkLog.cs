using Microsoft.Extensions.Logging;
using PupilBridge.CommandLine;

namespace PupilBridge.Hosting;

/// <summary>Warnings of the parts below among a command's own remarks.</summary>
/// <param name="call">The invocation.</param>
internal sealed class RemarkLog(Call call) : ILoggerProvider, ILogger
{
    /// <inheritdoc/>
    public ILogger CreateLogger(string categoryName) => this;

    /// <inheritdoc/>
    public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Warning;

    /// <inheritdoc/>
    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    /// <inheritdoc/>
    public void Log<TState>(
        LogLevel logLevel,
        EventId eventId,
        TState state,
        Exception? exception,
        Func<TState, Exception?, string> formatter
    )
    {
        if (IsEnabled(logLevel))
        {
            call.Remark($"pupilbridge: {PlainText.Shown(formatter(state, exception))}");
        }
    }

    /// <inheritdoc/>
    public void Dispose() { }
}
