using System.Text.Json;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// The sessions on disk, beside the keys that seal their cookies and as private as those. Losing it only means signing in again.
/// </summary>
internal sealed class SessionFile
{
    private readonly string path;
    private readonly Lock gate = new();
    private byte[] last = [];

    public SessionFile(string dataFolder) => path = Path.Combine(AccessKeys.Make(dataFolder), "sessions.json");

    /// <summary>The sessions kept; none if there is no file that can be read.</summary>
    public IReadOnlyList<Session> Read()
    {
        try
        {
            var kept = JsonSerializer.Deserialize<List<Kept>>(File.ReadAllBytes(path), JsonSerializerOptions.Web) ?? [];
            return [.. kept.Select(Of)];
        }
        catch (Exception gone) when (gone is IOException or JsonException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    /// <summary>Keeps the sessions, if anything about them is new.</summary>
    public void Write(IEnumerable<Session> sessions)
    {
        lock (gate)
        {
            var content = JsonSerializer.SerializeToUtf8Bytes(
                sessions.Select(Of).OrderBy(s => s.Id, StringComparer.Ordinal),
                JsonSerializerOptions.Web
            );
            if (content.AsSpan().SequenceEqual(last))
            {
                return;
            }

            try
            {
                var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
                if (!OperatingSystem.IsWindows())
                {
                    options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
                }

                using (var stream = new FileStream(path + ".new", options))
                {
                    stream.Write(content);
                }

                File.Move(path + ".new", path, overwrite: true);
                last = content;
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                // A full disk must sign nobody off; it is tried again with the next change.
            }
        }
    }

    private static Session Of(Kept one) =>
        new(
            one.Id,
            one.Who,
            one.Stamp,
            new(one.Where, one.Address, new(one.Browser, one.System)),
            one.Began ?? one.LastActivity,
            one.LastActivity
        );

    private static Kept Of(Session session) =>
        new(
            session.Id,
            session.Who,
            session.Stamp,
            session.Place.Where,
            session.LastActivity,
            session.Began,
            session.Place.Address,
            session.Place.Browser?.Name,
            session.Place.Browser?.System
        );

    /// <remarks>Earlier versions did not write what stands behind the last activity.</remarks>
    private sealed record Kept(
        string Id,
        string Who,
        string Stamp,
        string Where,
        DateTimeOffset LastActivity,
        DateTimeOffset? Began = null,
        string? Address = null,
        string? Browser = null,
        string? System = null
    );
}
