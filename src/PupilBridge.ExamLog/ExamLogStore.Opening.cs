using LiteDB;
using PupilBridge.Keys;

namespace PupilBridge.ExamLog;

/// <content>What is looked at before a store is handed out.</content>
public sealed partial class ExamLogStore
{
    internal static ExamLogStore OpenIn(ExamLogFolder folder, ExamLogOptions options)
    {
        var systemRun = options.SystemRun ?? SystemRun.Current();
        var isNew = PrepareFolder(folder, systemRun);
        folder = WithForm(folder, isNew, options);
        var file = DocumentFile.Open(folder);
        try
        {
            var position = file.Read("reading the position", db => Position.Read(db, ProjectionVersion));
            if (position is null)
            {
                position = isNew ? Initialise(file) : throw file.Break("it holds no position in the journal.");
            }

            RequireVersion(folder, position.Version);
            return new ExamLogStore(folder, file, position, options);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static bool PrepareFolder(ExamLogFolder folder, string systemRun)
    {
        try
        {
            Directory.CreateDirectory(folder.Folder);
            var isNew = !File.Exists(folder.DataFile) && !File.Exists(folder.LogFile);
            if (!isNew && !StateMark.IsTrustworthy(folder.MarkFile, systemRun))
            {
                throw new ExamLogBrokenException(
                    ExamLogTrouble.PowerLost,
                    folder.Folder,
                    $"The exam log in {folder.Folder} was open when the machine went down, so it may lack something without showing "
                        + "it. Start the service, which makes it anew from the journal, or run 'pupilbridge journal rebuild'."
                );
            }

            StateMark.WriteOpen(folder.MarkFile, systemRun);
            return isNew;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw ExamLogBrokenException.Damaged(folder.Folder, $"its folder cannot be used ({e.Message}).", e);
        }
    }

    private static ExamLogFolder WithForm(ExamLogFolder folder, bool isNew, ExamLogOptions options)
    {
        try
        {
            if (isNew)
            {
                return options is { Encrypt: true, Keys: { } keys }
                    ? folder.With(ExamLogKey.Make(folder, keys))
                    : folder;
            }

            if (ExamLogKey.IsThere(folder))
            {
                return folder.With(ExamLogKey.Open(folder, options.Keys));
            }
        }
        catch (Exception e) when (e is KeyException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw ExamLogBrokenException.Of(
                ExamLogTrouble.NotAsWritten,
                folder.Folder,
                $"its key cannot be used ({e.Message}).",
                e
            );
        }

        return options.Encrypt
            ? throw ExamLogBrokenException.Of(
                ExamLogTrouble.NotAsWritten,
                folder.Folder,
                "it is not encrypted, and is to be.",
                null
            )
            : folder;
    }

    private static Position Initialise(DocumentFile file)
    {
        // The engine lets readers see a collection that is just being made before its first page is one, and they fail on it. So all are
        // made here, before there is any reader; a document that comes and goes is how the engine makes one.
        file.Write(
            "making the collections",
            database =>
            {
                foreach (var name in Names.Collections)
                {
                    var collection = database.GetCollection(name, BsonAutoId.ObjectId);
                    collection.Insert(new BsonDocument { [Names.Id] = Names.Id });
                    collection.Delete(Names.Id);
                }
            }
        );
        // The engine's log begins anew, so that on a nearly full disk what was only made takes no room from what is to be written.
        file.Checkpoint();
        file.Read(
            "making the indexes",
            database =>
            {
                var exams = database.GetCollection(Names.Exams);
                return Names.ExamIndexes.Select(index => exams.EnsureIndex(index, $"$.{index}", unique: true)).ToList();
            }
        );
        var start = Position.Start(ProjectionVersion);
        file.Write("writing the first position", start.Write);
        return start;
    }

    private static void RequireVersion(ExamLogFolder folder, int version)
    {
        if (version != ProjectionVersion)
        {
            var (trouble, word) =
                version > ProjectionVersion
                    ? (ExamLogTrouble.NewerVersion, "newer")
                    : (ExamLogTrouble.OlderVersion, "older");
            throw new ExamLogBrokenException(
                trouble,
                folder.Folder,
                $"The exam log in {folder.Folder} was written by a {word} version of PupilBridge (projection {version}, this one "
                    + $"knows {ProjectionVersion}). Run 'pupilbridge journal rebuild' to make it anew with this version, or go back "
                    + "to the other one."
            );
        }
    }
}
