using Microsoft.Extensions.Logging;

namespace PupilBridge.Hosting;

/// <summary>What whoever runs the service is told about the audit stream.</summary>
internal static partial class AuditRemarks
{
    /// <summary>Says it.</summary>
    /// <param name="log">Where to.</param>
    /// <param name="words">What.</param>
    [LoggerMessage(EventId = 40, Level = LogLevel.Warning, Message = "{Words}")]
    public static partial void Say(ILogger log, string words);
}
