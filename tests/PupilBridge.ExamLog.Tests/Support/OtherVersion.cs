namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>Makes an exam log look as if another version of the program had written it.</summary>
internal static class OtherVersion
{
    public static void Write(string dataFolder, int version)
    {
        using var file = DocumentFile.Open(ExamLogFolder.InUse(dataFolder));
        file.Write(
            "writing another version",
            database =>
            {
                var position = database.GetCollection("position");
                var only = position.FindById(1);
                only["version"] = version;
                position.Update(only);
            }
        );
        file.Checkpoint();
    }
}
