using System.Globalization;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Logging.Console;
using PupilBridge.CommandLine;

namespace PupilBridge.Hosting;

/// <summary>
/// The service's messages in the foreground: one line each, time of day first, and a word before it where something is
/// wrong. (Under systemd its own format is used, which carries the severity.)
/// </summary>
/// <param name="time">The clock.</param>
internal sealed class PlainLines(TimeProvider time) : ConsoleFormatter(FormatName)
{
    /// <summary>The name by which it is chosen.</summary>
    public const string FormatName = "plain-lines";

    /// <inheritdoc/>
    public override void Write<TState>(
        in LogEntry<TState> logEntry,
        IExternalScopeProvider? scopeProvider,
        TextWriter textWriter
    )
    {
        if (IsFailedStart(logEntry.Category, logEntry.EventId))
        {
            return;
        }

        var text = Plain(logEntry.Formatter(logEntry.State, logEntry.Exception));
        var stamp = time.GetLocalNow().ToString("HH:mm:ss", CultureInfo.InvariantCulture);
        textWriter.Write($"{stamp} {Word(logEntry.LogLevel)}{text}\n");
        if (logEntry.Exception is { } fault && logEntry.LogLevel >= LogLevel.Error)
        {
            textWriter.Write($"{stamp}   {fault.GetType().Name}: {Plain(fault.Message)}\n");
        }
    }

    /// <summary>One line, whatever was brought along from outside in a name or a path.</summary>
    private static string Plain(string text) => PlainText.Shown(text.ReplaceLineEndings(" "));

    /// <summary>The host's own word for a failed start: the fault goes on to the command, which explains it in full.</summary>
    private static bool IsFailedStart(string category, EventId id) =>
        id.Name == "HostedServiceStartupFaulted"
        && category.StartsWith("Microsoft.Extensions.Hosting", StringComparison.Ordinal);

    private static string Word(LogLevel level) =>
        level switch
        {
            LogLevel.Critical or LogLevel.Error => "ERROR: ",
            LogLevel.Warning => "warning: ",
            _ => "",
        };
}
