using LiteDB;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>Makes an exam log look as if another version of the program had written it.</summary>
internal static class OtherVersion
{
    public static void Write(string dataFile, int version)
    {
        using var database = new LiteDatabase(
            new ConnectionString { Filename = dataFile, Collation = Collation.Binary }
        );
        var position = database.GetCollection("position");
        var only = position.FindById(1);
        only["version"] = version;
        position.Update(only);
        database.Checkpoint();
    }
}
