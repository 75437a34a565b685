namespace PupilBridge.Ports;

/// <summary>A process that has a port open.</summary>
/// <param name="ProcessId">Its number.</param>
/// <param name="ProcessName">Its name.</param>
public sealed record PortHolder(int ProcessId, string ProcessName);
