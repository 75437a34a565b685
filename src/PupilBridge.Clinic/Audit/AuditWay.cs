namespace PupilBridge.Clinic.Audit;

/// <summary>By which way something was seen.</summary>
public static class AuditWay
{
    /// <summary>A page in a browser.</summary>
    public const string Page = "page";

    /// <summary>The web API.</summary>
    public const string Api = "api";

    /// <summary>A command on this machine.</summary>
    public const string Command = "command";

    /// <summary>The service itself.</summary>
    public const string Service = "service";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } = [Page, Api, Command, Service];
}
