using System.Reflection;

namespace PupilBridge.ExamLog.Tests.Documents;

public class SurfaceTests
{
    [Fact]
    public void No_type_of_the_engine_is_seen_from_outside()
    {
        var seen = typeof(ExamLogStore)
            .Assembly.GetExportedTypes()
            .SelectMany(type =>
                type.GetMembers().SelectMany(TypesOf).Append(type.BaseType).Concat(type.GetInterfaces())
            )
            .OfType<Type>()
            .SelectMany(Parts)
            .ToHashSet();

        Assert.Contains(typeof(StoredExam), seen);
        Assert.DoesNotContain(seen, type => type.Assembly.GetName().Name == "LiteDB");
    }

    private static IEnumerable<Type?> TypesOf(MemberInfo member) =>
        member switch
        {
            MethodInfo method => method.GetParameters().Select(p => p.ParameterType).Append(method.ReturnType),
            ConstructorInfo constructor => constructor.GetParameters().Select(p => p.ParameterType),
            PropertyInfo property => [property.PropertyType],
            FieldInfo field => [field.FieldType],
            _ => [],
        };

    private static IEnumerable<Type> Parts(Type type) =>
        type.IsGenericType ? type.GetGenericArguments().SelectMany(Parts).Append(type) : [type];
}
