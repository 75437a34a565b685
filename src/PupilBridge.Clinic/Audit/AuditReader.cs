namespace PupilBridge.Clinic.Audit;

/// <summary>Who reads just now, by which way and from where; the same for all notes of one request or command.</summary>
/// <param name="Who">The sign-in name, or what stands for it.</param>
/// <param name="Way">One of <see cref="AuditWay"/>.</param>
/// <param name="Path">The path of the page or route, without its query; null for a command.</param>
/// <param name="From">The address that asks; null for this machine's own commands.</param>
public sealed record AuditReader(string Who, string Way, string? Path = null, string? From = null)
{
    /// <summary>Whoever runs a command of this program under an account of this machine.</summary>
    public static AuditReader OfCommand() => OfCommand(Environment.UserName);

    /// <summary>Whoever runs a command of this program.</summary>
    /// <param name="account">The account of this machine.</param>
    public static AuditReader OfCommand(string account) => new($"{account} (command)", AuditWay.Command);

    /// <summary>A note of this reader.</summary>
    /// <param name="what">One of <see cref="AuditWhat"/>.</param>
    /// <param name="at">When.</param>
    public AuditNote Note(string what, DateTimeOffset at)
    {
        var (path, asked) = PatientInPath.TakeOut(Path);
        return new AuditNote
        {
            At = at,
            Who = Who,
            What = what,
            Way = Way,
            Path = path,
            Asked = asked,
            From = From,
        };
    }
}
