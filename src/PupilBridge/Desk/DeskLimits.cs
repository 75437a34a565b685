namespace PupilBridge.Desk;

/// <summary>What the local socket takes at most.</summary>
internal sealed record DeskLimits
{
    /// <summary>Commands connected at the same time; one more is turned away with a message.</summary>
    /// <value>The default is 16: a handful of screens and hands in one room.</value>
    public int MaxClients { get; init; } = 16;

    /// <summary>The most bytes of one message to the service.</summary>
    /// <value>The default is 64 KiB: people's entries are a few hundred bytes.</value>
    public int MaxRequestBytes { get; init; } = 64 * 1024;

    /// <summary>The most bytes of one message to a command.</summary>
    /// <value>The default is 64 MiB: a page of exams is a few hundred KiB.</value>
    public int MaxReplyBytes { get; init; } = 64 * 1024 * 1024;

    /// <summary>How long each side waits for the other's hello.</summary>
    /// <value>The default is 5 s.</value>
    public TimeSpan HelloWithin { get; init; } = TimeSpan.FromSeconds(5);
}
